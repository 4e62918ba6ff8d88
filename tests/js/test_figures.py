"""The figures the browser plays by are the engine's, to the letter."""

from __future__ import annotations

from engine.motion.figures import module
from tests.node import ROOT


def test_the_browsers_figures_are_what_the_engine_writes() -> None:
    """After a change there: ``python -m engine.motion.figures > static/js/steps/figures.js``."""
    assert (ROOT / "static" / "js" / "steps" / "figures.js").read_text("utf-8") == module()
