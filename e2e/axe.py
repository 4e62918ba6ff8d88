"""Pages that everybody can use, as far as a machine can tell: axe-core, by daylight and in a dark gym."""

from __future__ import annotations

import json
from typing import Any

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

#: What colours can break.
COLOURS: dict[str, Any] = {"runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}}
#: What a page is looked at with in each light: all rules in one of them.
LIGHTS: dict[str, dict[str, Any]] = {"dark": COLOURS, "light": {}}
#: Only what is asked for comes back, and as text: all that axe tells of a page takes a second to pass on.
_RUN = """async ({ every, ...options }) => {
  const { passes, violations } = await axe.run({ resultTypes: ['violations'], ...options });
  const graver = ['serious', 'critical', ...(every ? ['minor', 'moderate'] : [])];
  const grave = violations.filter(({ impact }) => graver.includes(impact));
  return JSON.stringify({ passes: passes.length, grave: grave.flatMap(({ id, impact, help, nodes }) =>
    nodes.map(({ target, html }) => `${id} (${impact}): ${help} at ${target}: ${html.slice(0, 160)}`)) });
}"""
#: What fades in has the contrast of its end.
_AT_REST = "() => document.getAnimations().every((each) => each.playState === 'finished')"


def check(page: Page, *, colours_alone: bool = False, every: bool = False) -> None:
    """Fail with every serious or critical violation on the page, in which light, and where it is.

    ``colours_alone``: nothing else is other than when it was looked at last. ``every``: with the minor ones
    too. The page is left in daylight.
    """
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE_SCRIPT)
    found: list[str] = []
    for light, options in LIGHTS.items():
        page.emulate_media(color_scheme=light)  # type: ignore[arg-type]
        page.wait_for_function(_AT_REST)
        told = json.loads(page.evaluate(_RUN, {**(COLOURS if colours_alone else options), "every": every}))
        assert told["passes"], f"nothing was looked at ({light})"
        found += [f"{light}: {each}" for each in told["grave"]]
    assert found == []
