"""What is on offer: every legal action, and with the cutter's default choice first whatever that opens."""

from __future__ import annotations

from hypothesis import given

from engine.floor.alignment import Position, start
from engine.floor.formations import Formation
from engine.game.lane import default_choice
from engine.game.moves import legal, resolve
from engine.game.play import advance, offers
from tests.engine.boards import FIVE
from tests.engine.game.test_rules_always import positions


@given(positions())
def test_an_offer_of_two_is_what_the_default_choice_opens(reached: tuple[Position, Formation]) -> None:
    position, formation = reached
    found = offers(position, formation)
    now = legal(position.alignment, formation)
    assert [offer.actions for offer in found if not offer.is_composite] == [(action,) for action in now]
    choice = default_choice(position.alignment, formation)
    opened = []
    if choice is not None:
        after = resolve(position.alignment, choice, formation).after
        opened = [(choice, action) for action in legal(after, formation) if action not in now]
    assert [offer.actions for offer in found if offer.is_composite] == opened


def test_while_a_cutter_waits_passes_are_offered_with_his_way_out_first() -> None:
    position, _ = advance(start(FIVE), ["pass:right_wing"], FIVE)
    found = [[action.text for action in offer.actions] for offer in offers(position, FIVE)]
    assert ["fill:left_corner", "pass:top"] in found
    assert ["pass:top"] not in found
    assert ["shot"] in found
    assert ["fill:left_corner", "shot"] not in found
