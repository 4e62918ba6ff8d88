"""A player's first visit: quick on a slow line, and complete on a plain address without any worker."""

from __future__ import annotations

from e2e.people import Player

#: The modules the page's head names, and those that were fetched.
MODULES = """() => ({
  named: [...document.querySelectorAll('link[rel=modulepreload], script[type=module]')]
    .map((each) => new URL(each.href || each.src).pathname).sort(),
  fetched: [...new Set(performance.getEntriesByType('resource').map((each) => new URL(each.name).pathname))]
    .filter((path) => path.endsWith('.js')).sort(),
})"""


def test_every_module_is_asked_for_at_once(player: Player) -> None:
    """One found only when another has come costs a slow line one more way there and back."""
    modules = player.page.evaluate(MODULES)
    assert modules["named"] == modules["fetched"]


def test_the_phone_keeps_nothing_but_its_number_and_its_looks(player: Player) -> None:
    player.pick(4)
    player.page.get_by_role("button", name="Turn the court round").tap()
    assert player.context.cookies() == []
    kept = player.page.evaluate("() => Object.keys(localStorage).sort()")
    assert kept == ["quintet.me", "quintet.view"]
    assert player.page.evaluate("async () => (await navigator.serviceWorker.getRegistrations()).length") == 0
