"""A step in words: phrases (a key and its parameters) and their sentences in a language.

Phrases are what travels; a language's tables turn them into sentences, here and in the browser alike, by
putting words for the parameters into a template: ``p`` and ``m`` are players, ``s`` a spot (``at``, ``the``,
``to`` and ``from`` are the same spot in a form of its own), ``d`` a direction.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from engine.floor.alignment import Position
from engine.floor.formations import BESIDE_RIM, PAINT, POSTS
from engine.floor.spot_names import spot_forms, spot_words
from engine.game.composites import runs_once
from engine.game.play import follow
from engine.game.steps import Step
from engine.words.spoken import spoken

#: Of other moves no more is said than the manner, whose it is and where it ends.
MORE_SAID: Final = frozenset(("roll", "pop", "take_hand_off", "set_screen"))

Params = Mapping[str, int | str]
Phrase = tuple[str, Params]


@dataclass(frozen=True, slots=True)
class Words:
    """Phrases of one tap: ``chain`` one an action, ``who`` one a player (by number), ``ball`` one."""

    chain: tuple[Phrase, ...]
    who: Mapping[int, Phrase]
    ball: Phrase


def sentence(section: str, phrase: Phrase, name: Callable[[int], str] = str) -> str:
    """Return a phrase as words: ``section`` is chain, list, who, you or ball; ``name`` names a player."""
    language = spoken()
    key, given = phrase
    words: dict[str, str] = {}
    for letter, value in given.items():
        if letter in "pm":
            words[letter] = name(int(value))
        elif letter == "d":
            words["d"] = language.tables["court"]["directions"][value]
        else:
            words |= {"s": spot_words(str(value)), **spot_forms(str(value))}
    return language.say(f"steps.{section}.{key}", **words)


def words(position: Position, steps: Sequence[Step], backs: Sequence[str] = ()) -> Words:
    """Put one or two steps (a lane choice and the ball action after it) into phrases.

    ``position`` is the one before the first step. ``backs`` are the spots of the players who get back when
    the last step is a shot; the others without the ball then rebound.
    """
    before, once = position, runs_once(steps)
    chain: list[Phrase] = []
    who: dict[int, Phrase] = {}
    ball: Phrase = ("hold", {})
    for at, step in enumerate(steps):
        if at:
            position = follow(position, steps[at - 1])
        chain.append(chain_phrase(position, step))
        ball = _ball_phrase(position, step)
        for number, phrase in _who(position, step, backs).items():
            # A mate who only stands in the second half of a tap is told of what he did in the first.
            if phrase[0] not in ("stay", "keep") or number not in who:
                who[number] = phrase
    if once is not None:
        # He runs once, and hears of that one run: his choice, with where it ends for where it would have.
        cutter = before.player(once.origin)
        key, given = chain[0]
        if steps[1].ball.kind != "hand_off" or once.manner != "take_hand_off":
            chain[0] = key, {**given, "s": once.target}
            who[cutter] = steps[0].moves[0].manner, {"p": cutter, "s": once.target}
    return Words(tuple(chain), dict(sorted(who.items())), ball)


def chain_phrase(position: Position, step: Step) -> Phrase:
    """Return the action itself as a phrase: who does what, to whom or where."""
    action, player = step.action, dict(position.lineup)
    actor = step.before.cutter if action.is_lane_choice else step.before.ball
    assert actor is not None
    phrase: dict[str, int | str] = {"p": player[actor]}
    mate = step.before.cutter if action.about.taker == "cutter" and not action.is_lane_choice else action.spot
    if mate is not None and mate in player:
        phrase |= {"m": player[mate]}
    if action.spot is not None:
        phrase |= {"s": action.spot}
    if action.direction is not None:
        phrase |= {"d": action.direction}
    return action.kind, phrase


def _ball_phrase(position: Position, step: Step) -> Phrase:
    player, ball = dict(position.lineup), step.ball
    giver = player[ball.origin]
    if ball.kind in ("pass", "hand_off"):
        # Whoever comes to the spot the ball goes to; else he stands there already.
        spot = next((move.origin for move in step.moves if move.target == ball.target), ball.target)
        return ball.kind, {"p": giver, "m": player[spot]}
    if ball.kind == "dribble":
        return ball.kind, {"p": giver, "s": ball.target}
    return ball.kind, {"p": giver}


def _who(position: Position, step: Step, backs: Sequence[str]) -> dict[int, Phrase]:
    moves = {move.origin: move for move in step.moves}
    return {
        number: _actor(position, step, spot, number)
        or (_moved(position, step, moves[spot].manner, moves[spot].target, number) if spot in moves else None)
        or _standing(step, spot, number, backs)
        for spot, number in position.lineup
    }


def _actor(position: Position, step: Step, spot: str, number: int) -> Phrase | None:
    """Return the phrase of the player with the ball, if the action is his own doing."""
    action, before = step.action, step.before
    if spot != before.ball:
        return None
    player = dict(position.lineup)
    mate = step.before.cutter if action.about.taker == "cutter" else action.spot
    given: dict[str, int | str] = {"p": number}
    if mate is not None and mate in player:
        given["m"] = player[mate]
    if action.direction is not None:
        given["d"] = action.direction
    says = action.about.says
    match says:
        case "pass_cut" | "skip_cut" | "feed_cut" | "kick_cut":
            return _passer(step, spot, given)
        case "hand_off":
            manner, target = _own_move(step, spot)
            endings = {"cut": "hand_off_cut", "stay": "hand_off_stay"}
            return endings.get(manner, "hand_off_replace"), given | {"s": target}
        case "drive" if step.ball.target in BESIDE_RIM.values():
            return "drive_baseline", given
        case "shoot" | "keep":
            return says, {"p": number, "s": spot}
    if step.ball.kind == "dribble" and action.direction is None:
        return says, given | {"s": step.ball.target}
    return says, given


def _own_move(step: Step, spot: str) -> tuple[str, str]:
    """Return in what manner the player on ``spot`` moves and where to; "stay" if he does not."""
    return next(((move.manner, move.target) for move in step.moves if move.origin == spot), ("stay", spot))


def _passer(step: Step, spot: str, given: Params) -> Phrase:
    manner, target = _own_move(step, spot)
    says = step.action.about.says
    if manner == "cut":
        return says, given
    kind = "kick" if says == "kick_cut" else "pass"
    if manner == "stay" and step.after.cutter == spot:
        return f"{kind}_wait", given
    if manner == "screen_away":
        return "pass_screen_away", {**given, "s": target}
    return f"{kind}_stay" if manner == "stay" else f"{kind}_move", {**given, "s": target}


def _moved(position: Position, step: Step, manner: str, target: str, number: int) -> Phrase:
    given: dict[str, int | str] = {"p": number, "s": target}
    if manner not in MORE_SAID:
        return manner, given
    if manner in ("roll", "pop"):
        given["m"] = position.player(step.before.ball)
    if manner == "take_hand_off" and target == PAINT:
        manner = "comes_off_hub"
    if manner == "set_screen":
        given["m"] = position.player(target)
    return manner, given


def _standing(step: Step, spot: str, number: int, backs: Sequence[str]) -> Phrase:
    if step.is_shot:
        return ("get_back" if spot in backs else "rebound"), {"p": number}
    if step.ball.kind == "pass" and step.ball.target == spot:
        return "catch_freed" if step.is_freed else "catch", {"p": number, "s": spot}
    if spot == step.after.cutter and spot not in POSTS:
        return "wait", {"p": number}
    return "stay", {"p": number, "s": spot}
