"""Everything a formation and a rule set can lead to, worked out beforehand: what a screen plays from offline.

``closure`` lists the positions, ``mirror`` finds those that are another one's mirror image, ``record`` puts
a step into a form without names, ``written`` puts it all down in columns.
"""

from __future__ import annotations

from typing import Any

from engine.floor.court import Court
from engine.floor.formations import Formation
from engine.game.bulk import uncollected
from engine.game.closure import closure
from engine.pack.make import rows
from engine.pack.written import written
from engine.rules.rule_sets import RuleSet


def pack(formation: Formation, rules: RuleSet, court: Court) -> dict[str, Any]:
    """Return the pack of a formation, a rule set (all its stages) and a court, ready for JSON.

    The same three give the same pack, to the letter. It covers every valid alignment, reachable or not.
    """
    with uncollected():
        steps = closure(formation, rules)
        orders = {tuple([step.action for step in found]) for found in steps.values()}
        return written(rows(formation, rules, court, steps), orders, formation, rules, court)
