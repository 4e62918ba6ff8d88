"""Check a rule set: explore all it can lead to and report what a coach should know before using it."""

from __future__ import annotations

from collections.abc import Callable

from engine.checker.explore import Explored, LookedAt, explore
from engine.checker.findings import Notebook, Report
from engine.checker.tempo import Tempo
from engine.floor.alignment import Position, start
from engine.floor.court import Court
from engine.floor.formations import Formation
from engine.floor.spacing import ring_distances
from engine.game.bulk import uncollected
from engine.game.licences import Licences
from engine.game.play import NOBODY_LIMITED, advance
from engine.game.steps import Step
from engine.rules.actions import LANE_CHOICES
from engine.rules.rule_sets import RuleSet

#: Told how many positions have been looked at and how many are known so far.
Progress = Callable[[int, int], None]

#: Positions looked at between two reports of progress.
EVERY = 200


def check(
    rules: RuleSet,
    formation: Formation,
    court: Court,
    licences: Licences = NOBODY_LIMITED,
    progress: Progress | None = None,
) -> Report:
    """Explore every position ``rules`` can lead to in ``formation`` and return what is wrong with it.

    With ``licences``, players with equal ones are one group. Each finding holds the shortest chain that
    shows it. Deterministic; never raises for a rule set that could be read.
    """
    with uncollected():
        return _check(rules, formation, court, licences, progress)


def _check(
    rules: RuleSet, formation: Formation, court: Court, licences: Licences, progress: Progress | None
) -> Report:
    book = Notebook()
    tempo = Tempo(court, formation)
    used: set[str] = set()
    done: Explored | None = None
    for number, (done, look) in enumerate(explore(formation, rules, licences), start=1):
        if progress is not None and number % EVERY == 0:
            progress(number, len(done.ways))
        if look.position.alignment.over:
            continue
        _note_faults(book, done, look, formation, rules)
        _note_dead_ends(book, done, look)
        used.update(step.action.kind for step in look.steps)
        tempo.note(book, done, look)
    assert done is not None
    tempo.finish(book, done)
    _note_unused(book, rules, used)
    _note_spacing(book, formation, court)
    _note_balance(book, rules)
    if progress is not None:
        progress(len(done.ways), len(done.ways))
    known = (item for item in rules.known if item.formation in (None, formation.name))
    return Report(book.findings(known), len(done.ways), done.steps)


def _note_faults(
    book: Notebook, done: Explored, look: LookedAt, formation: Formation, rules: RuleSet
) -> None:
    for action, fault in look.faults:
        about = {"action": action.kind, "role": fault.detail[0] if fault.detail else ""}
        kind, told = fault.kind, dict[str, str]()
        if kind == "nowhere":
            if action.about.has_screener:
                # A screener without an open spot to go to is a condition of the screen, not a fault.
                continue
            kind, about = "off_spots", {"action": action.kind, "movement": fault.detail[0]}
        elif kind == "two_responses":
            about["other"] = fault.detail[1]
        elif kind == "same_spot":
            about = {"action": action.kind}
        if not book.seen(kind, about):
            chain = done.chain(look.position, action.text)
            if kind == "same_spot":
                before, _ = advance(start(formation), chain[:-1], formation, rules)
                told = {"spot": fault.spot, **_two(before, fault.detail)}
            book.add(kind, about, chain, told=told)


def _two(position: Position, spots: tuple[str, ...]) -> dict[str, str]:
    """Return who the two are that are sent to one spot."""
    one, two = sorted(position.player(spot) for spot in spots[:2])
    return {"player": str(one), "mate": str(two)}


def _note_dead_ends(book: Notebook, done: Explored, look: LookedAt) -> None:
    if len(look.steps) <= 1:
        kind = "only_shot"
    elif look.position.alignment.cutter is not None and not any(map(_moves_cutter, look.steps)):
        kind = "stuck_cutter"
    else:
        return
    if not book.seen(kind, {}):
        book.add(kind, {}, done.chain(look.position))


def _moves_cutter(step: Step) -> bool:
    """Whether the waiting cutter himself gets out of the lane in this step."""
    return any(move.origin == step.before.cutter for move in step.moves)


def _note_unused(book: Notebook, rules: RuleSet, used: set[str]) -> None:
    for kind in sorted((rules.actions | rules.lane) - used):
        if book.explains(kind):
            continue  # what is wrong with it says why it never happens
        book.add("never", {"action": kind, "part": "lane" if kind in LANE_CHOICES else "ball"}, ())


def _note_spacing(book: Notebook, formation: Formation, court: Court) -> None:
    for pair in ring_distances(court, formation):
        if pair.mark == "near":
            about = {"first": pair.first, "second": pair.second, "metres": f"{pair.metres:.2f}"}
            book.add("close", about, ())


def _note_balance(book: Notebook, rules: RuleSet) -> None:
    table = rules.responses.get("shot", {})
    if "get_back" not in {movement for do in table.values() for movement in do}:
        book.add("no_balance", {}, ("shot",))
