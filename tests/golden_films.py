"""Films written down: where everybody and the ball are at every tenth of a second, for some hundred chains.

``tests/engine/motion/films.jsonl.gz`` holds a chain a line: what is played and on what board, when its steps
start (hundredths of a second), and places (whole centimetres). The engine's film and the browser's are both
held to it. After a meant change of the clock, ``python -m tests.golden_films`` writes it anew from its
chains; ``--anew`` draws the chains by dice once more.
"""

from __future__ import annotations

import gzip
import json
import random
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

from engine.floor.alignment import start
from engine.floor.formations import FORMATIONS
from engine.game import recover
from engine.game.play import offers
from engine.motion.film import Film
from engine.motion.speeds import BREATH_S
from engine.rules.rule_sets import SHIPPED, shipped
from engine.script import PREFIX, read
from tests.engine.script.scripts import INBOUND, LAST, LOOSE
from tests.scripts import some_script
from tests.webapp.paper.chains import back, card, played
from webapp.chains.state import Card
from webapp.paper.keyframes import film
from webapp.paper.sheet import sheet
from webapp.wire.drawn_steps import script_wire
from webapp.wire.engine_values import recovery_wire, step_wire

FILE: Final = Path(__file__).with_name("engine") / "motion" / "films.jsonl.gz"
BY_RULE, DRAWN = 24, 36
EVERY_S: Final = 0.1
COURTS: Final = ("fiba", "nba", "ncaa", "nfhs")
LEVELS: Final = (1.0, 0.75, 0.9)

Chain = tuple[tuple[str, ...], ...]

#: Chains on which the two clocks once differed, and others in which a rule of the clock is all that matters.
GIVEN: Final[Mapping[str, tuple[str, str, float, Chain]]] = {
    "a pass waits for a cutter who fills late": (
        "three_out_two_in", "fiba", 1.0,
        (("post_entry:left_block",), ("fill:right_wing", "kick_out:right_wing"),
         ("ball_screen:right_block:right",)),
    ),
    "a hand-off takes no time from the next action": (
        "four_out_one_in", "fiba", 1.0,
        (("back_cut:right_wing",), ("fill:right_wing", "back_cut:left_slot"), ("fill:left_wing",),
         ("back_cut:left_slot",), ("fill:left_wing", "hand_off:left_slot"),
         ("fill:left_wing", "hand_off:left_slot")),
    ),
    "a cutter who has just been handed the ball is passed to": (
        "five_out", "fiba", 1.0, (("pass:right_wing",), ("cutter_pass",), ("kick_out:top",)),
    ),
    "who is put on a spot by hand stays there": (
        "five_out", "fiba", 1.0,
        (("pass:right_wing",),
         ("recover:1=left_corner@0,0;2=right_wing@0,0;3=top@0,0;4=right_corner@0,0;5=left_wing@0,0",)),
    ),
    "who is put near a spot runs on from where he is": (
        "five_out", "fiba", 1.0,
        (("pass:right_wing",),
         ("recover:1=left_corner@4,0;2=right_wing@0,-4;3=top@0,0;4=right_corner@0,3;5=left_wing@-2,2",),
         ("pass:top",), ("fill:right_corner", "dribble_at:left_wing")),
    ),
    "a hand-off waits for the ball to have changed hands before": (
        "five_out", "fiba", 1.0,
        (("dribble_at:right_wing",), ("post_up:left_block",), ("pass:top",), ("post_up:left_elbow",),
         ("back_cut:right_wing",), ("fill:right_wing", "hand_off:right_wing"), ("cutter_pass",)),
    ),
    "a drawing in which nothing happens": (
        "five_out", "fiba", 1.0,
        (("script:as=free;at=1,0,715,2,506,506,3,-506,506,4,700,0,5,-700,0;ball=1;"
          "on=1,top,2,right_wing,3,left_wing,4,right_corner,5,left_corner",), ("pass:right_wing",)),
    ),
    "an inbound, then another": ("five_out", "fiba", 1.0, ((INBOUND,), (LAST,))),
    "a ball on the floor is picked up on the way back": ("five_out", "fiba", 1.0, ((LOOSE,),)),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Case:
    """A chain and the board it is played on."""

    name: str
    formation: str
    court: str
    level: float
    rules: str
    chain: Chain

    @property
    def board(self) -> Card:
        """The board."""
        return replace(card(FORMATIONS[self.formation], shipped(self.rules), self.court), level=self.level)

    @property
    def breath(self) -> float | None:
        """At taught pace, at which every other numbered chain goes, how long all stand; else None."""
        return BREATH_S if self.name[-1] in "13579" else None

    def film(self) -> Film:
        """Return its film as the engine lays it."""
        return film(sheet(self.board, played(self.board, self.chain), self.name), self.breath)

    def wires(self) -> list[Any]:
        """Return its steps as they cross the wire."""
        board, made = self.board, []
        for step in played(board, self.chain):
            text = step.actions[0]
            if text.startswith(PREFIX):
                made.append(script_wire(step.before, read(text, board.shape), board.court, board.shape))
            elif text.startswith(recover.PREFIX):
                found = recover.read(text, board.shape)
                made.append(recovery_wire(step.before, found, board.court, board.shape))
            else:
                given = step.before, step.actions, board.shape, board.court, board.level, board.rules
                made.append(step_wire(*given))
        return made


def times(end: float) -> list[float]:
    """Return the moments looked at."""
    return [tick * EVERY_S for tick in range(int(end / EVERY_S) + 2)]


def written(case: Case) -> dict[str, Any]:
    """Return the line of a case."""
    made = case.film()
    looks = times(round(made.end * 100) / 100)
    who = [*made.players, *sorted(made.shown)]
    return {
        "name": case.name,
        "board": [case.formation, case.court, case.level, case.rules],
        "chain": case.chain,
        "starts": [round(cue.start * 100) for cue in made.cues],
        "end": round(made.end * 100),
        "shown": {
            key: [[round(t * 100) if t < float("inf") else None for t in span] for span in spans]
            for key, spans in sorted(made.shown.items())
        },
        "places": {str(one): [round(v * 100) for t in looks for v in made.position(one, t)] for one in who},
        "ball": [round(value * 100) for t in looks for value in made.ball_position(t)],
    }


def kept() -> list[tuple[Case, dict[str, Any]]]:
    """Return every case and its line."""
    lines = [json.loads(line) for line in gzip.decompress(FILE.read_bytes()).splitlines()]
    return [(Case(line["name"], *line["board"], tuple(map(tuple, line["chain"]))), line) for line in lines]


def drawn_by_dice() -> Iterator[Case]:
    """Yield the given chains, and new ones."""
    for name, (formation, court, level, chain) in GIVEN.items():
        yield Case(name, formation, court, level, SHIPPED[0], _put(formation, court, chain))
    for number in range(BY_RULE * len(FORMATIONS)):
        dice = random.Random(f"by rule {number}")
        formation, rules = sorted(FORMATIONS)[number % len(FORMATIONS)], SHIPPED[number % len(SHIPPED)]
        case = Case(f"by rule {number}", formation, dice.choice(COURTS), dice.choice(LEVELS), rules, ())
        yield _longer(case, dice, drawings=0.0)
    for number in range(DRAWN):
        dice = random.Random(f"drawn {number}")
        case = Case(
            f"drawn {number}", dice.choice(sorted(FORMATIONS)), dice.choice(COURTS), 1.0, SHIPPED[0], ()
        )
        yield _longer(case, dice, drawings=0.4)


def _put(formation: str, court: str, chain: Chain) -> Chain:
    """Return a chain in which a recovery's places are counted from its spots, and a last one added."""
    board = card(FORMATIONS[formation], court=court)
    made: list[tuple[str, ...]] = []
    for actions in chain:
        if actions[0].startswith(recover.PREFIX):
            found, places = recover.read(actions[0], board.shape), sheet(board, [], "").spots
            spot_of = {number: places[spot] for spot, number in found.lineup}
            where = {n: (spot_of[n].x + x / 100, spot_of[n].y + y / 100) for n, x, y in found.where}
            made.append(back(board, played(board, made)[-1].after, where))
        else:
            made.append(actions)
    last = played(board, made)[-1].after
    if last.off and not last.alignment.over:
        made.append(back(board, last, {number: (x / 100, y / 100) for number, x, y in last.off}))
    return tuple(made)


def _longer(case: Case, dice: random.Random, drawings: float) -> Case:
    """Return a case played on by dice: at a position off spots everybody gets back, or is drawn once more."""
    board, chain = case.board, list(case.chain)
    for step in range(4 if drawings else 5):
        position = played(board, chain)[-1].after if chain else start(board.shape)
        if (drawings and not step) or dice.random() < drawings:
            ending = dice.choice(("on spots", "off spots"))
            chain.append((some_script(dice, board.shape, board.rules, ending, least=100).text,))  # type: ignore[arg-type]
        elif position.off:
            where = {number: (x / 100, y / 100) for number, x, y in position.off}
            chain.append(back(board, position, where))
        else:
            legal = [one for one in offers(position, board.shape, board.rules) if not one.steps[-1].is_shot]
            if not legal:
                break
            chain.append(tuple(action.text for action in dice.choice(legal).actions))
    return Case(case.name, case.formation, case.court, case.level, case.rules, tuple(chain))


def main(arguments: Sequence[str]) -> None:
    """Write the file anew."""
    cases = list(drawn_by_dice()) if "--anew" in arguments else [case for case, _ in kept()]
    lines = [json.dumps(written(case), separators=(",", ":")) for case in cases]
    FILE.write_bytes(gzip.compress("\n".join(lines).encode(), mtime=0))
    print(f"{len(lines)} films, {FILE.stat().st_size:,} bytes")


if __name__ == "__main__":
    main(sys.argv[1:])
