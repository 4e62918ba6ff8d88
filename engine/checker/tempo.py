"""What only shows in motion: routes through a team-mate, and more than three seconds in the lane."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from itertools import takewhile
from typing import Final

from engine.checker.explore import Explored, LookedAt
from engine.checker.findings import Notebook
from engine.floor.alignment import Position
from engine.floor.court import Court, places
from engine.floor.formations import Formation
from engine.game.steps import BallMove, Move, Step
from engine.motion.clearance import CLEAR_M, Memory, Tracks, among, beside, clashes, exempt, tracks_of
from engine.motion.clock import append
from engine.motion.film import standing
from engine.motion.report import of_film
from engine.motion.solve import NoWay, solve
from engine.motion.table import Row, changes_in, digest, load, movement
from engine.motion.table import standing as still_in
from engine.motion.timeline import TRIES, build
from engine.motion.values import Timeline
from engine.rules.actions import Action

#: The three-second rule (FIBA Official Basketball Rules, Art. 26, second-hand; NFHS and NBA alike).
LANE_LIMIT_S: Final = 3.0

#: How finely the clock is looked at, seconds: at 5 m/s half a metre, less than the clearance looked for.
TICK_S: Final = 0.1


@dataclass(slots=True)
class _Line:
    """The timeline of one set of movements, and what is known of it.

    ``checked``: standing players it keeps clear of; ``runners_clear``: so do those who run, of one another,
    along ``tracks``.
    ``mended``: other timelines that helped where it does not; ``hopeless``: who stands where none did.
    """

    line: Timeline
    checked: set[str] = field(default_factory=set)
    runners_clear: bool = False
    tracks: Tracks | None = None
    mended: list[Timeline] = field(default_factory=list)
    hopeless: set[frozenset[str]] = field(default_factory=set)


@dataclass(slots=True)
class _Family:
    """One set of movements: its row in the table, if any, and its timelines by who stands in the way.

    ``allowed``: the pairs that may come close.
    """

    row: Row | None
    allowed: frozenset[frozenset[str]]
    lines: dict[frozenset[str], _Line] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Stay:
    """A cutter's coming: ``seconds`` in the lane until he arrives, which is ``late`` seconds after the ball
    handler could go on; the position and the step he came in.
    """

    seconds: float
    late: float
    position: Position
    step: Step


@dataclass(frozen=True, slots=True)
class _Leaving:
    """His leaving: he starts ``start`` seconds after the step does, and is out ``seconds`` later."""

    start: float
    seconds: float
    step: Step


def _at_most(stay: _Stay, leaving: _Leaving) -> float:
    """Return the seconds a cutter is in the lane at the most, from coming to leaving.

    The next action starts when the handler is ready; a cutter still under way arrives first.
    """
    return stay.seconds + max(0.0, leaving.start - stay.late) + leaving.seconds


@dataclass(slots=True)
class Tempo:
    """Looks at each different set of movements once, and at each stay in the lane once at the end.

    ``stays``: for each position with a waiting cutter, how long he can have been in the lane when he may
    leave it, nearest way there first, each longer than the one before. ``leaves``: for each such position and
    kind of action, the longest it then takes him.
    """

    court: Court
    formation: Formation
    families: dict[tuple[Action, tuple[Move, ...], BallMove], _Family] = field(default_factory=dict)
    stays: dict[Position, list[_Stay]] = field(default_factory=dict)
    leaves: dict[tuple[Position, str], _Leaving] = field(default_factory=dict)
    memory: Memory = field(default_factory=Memory)
    searched: Memory = field(default_factory=Memory)
    #: Seconds in the lane by timeline, player and first moment: many positions share them.
    seconds: dict[tuple[int, str, float], float] = field(default_factory=dict)

    def note(self, book: Notebook, done: Explored, look: LookedAt) -> None:
        """Write down what is wrong with the steps that lead on from a position."""
        for step in look.steps:
            if step.is_shot or not step.moves:
                continue
            still = still_in((step,))
            family = self._family(step)
            known = self._line(family, step, still)
            if not self._clear(known, family.allowed, step, still):
                about = {"action": step.action.kind}
                if not book.seen("through", about):
                    book.add("through", about, done.chain(look.position, step.action.text))
            self._time(known.line, look.position, step)

    def finish(self, book: Notebook, done: Explored) -> None:
        """Write down who is in the lane for more than three seconds: coming, waiting and leaving."""
        shortest: dict[str, tuple[str, ...]] = {}
        count: Counter[str] = Counter()
        for (position, kind), leaving in self.leaves.items():
            stays = self.stays.get(position, ())
            stay = next((stay for stay in stays if self._is_too_long(stay, leaving)), None)
            if stay is None:
                continue
            count[kind] += 1
            chain = done.chain(stay.position, stay.step.action.text, leaving.step.action.text)
            if kind not in shortest or len(chain) < len(shortest[kind]):
                shortest[kind] = chain
        for kind, chain in shortest.items():
            book.add("three_seconds", {"action": kind}, chain, count[kind])

    def _is_too_long(self, stay: _Stay, leaving: _Leaving) -> bool:
        """Whether he is in the lane for more than three seconds, as the two steps are laid on one clock."""
        if _at_most(stay, leaving) <= LANE_LIMIT_S:
            return False
        before = stay.step.before
        player = {spot: number for number, spot in enumerate(sorted(before.occupied), start=1)}
        spots = places(self.court, self.formation)
        film = standing({number: spots[spot] for spot, number in player.items()}, player[before.ball])
        for step in (stay.step, leaving.step):
            append(film, self._line(self._family(step), step, still_in((step,))).line, player)
            travel = step.travel
            player = {travel.get(spot, spot): number for spot, number in player.items()}
        return max(lane.longest for lane in of_film(film, self.court).lane.values()) > LANE_LIMIT_S

    def _family(self, step: Step) -> _Family:
        key = step.action, step.moves, step.ball
        family = self.families.get(key)
        if family is None:
            row = load(self.formation.name).rows.get(digest(movement(step)))
            family = self.families[key] = _Family(row, exempt((step,)))
        return family

    def _line(self, family: _Family, step: Step, still: frozenset[str]) -> _Line:
        # Where the table has changes they depend on who stands in the way; else nobody does.
        matter = family.row[0] & still if family.row else frozenset[str]()
        known = family.lines.get(matter)
        if known is None:
            changes = changes_in(family.row, matter, self.court.standard.name) if family.row else None
            line = build((step,), self.court, self.formation, changes or {})
            known = family.lines[matter] = _Line(line)
        return known

    def _clear(
        self, known: _Line, allowed: frozenset[frozenset[str]], step: Step, still: frozenset[str]
    ) -> bool:
        new = still - known.checked
        if known.runners_clear and not new:
            return True
        if known.tracks is None:
            known.tracks = tracks_of(known.line, TICK_S, self.memory)
            known.runners_clear = not among(known.tracks, allowed, CLEAR_M, TICK_S, self.memory)
        if known.runners_clear and not beside(
            known.tracks, known.line, new, allowed, CLEAR_M, TICK_S, self.memory
        ):
            known.checked |= new
            return True
        # Not as it is: see whether the delays and bends that helped before do, or else others.
        if any(not clashes(line, still, allowed, CLEAR_M, TICK_S, self.memory) for line in known.mended):
            return True
        if still in known.hopeless:
            return False
        try:
            changes = solve((step,), still, (self.court,), self.formation, TRIES, memory=self.searched)
        except NoWay:
            known.hopeless.add(still)
            return False
        known.mended.append(build((step,), self.court, self.formation, changes))
        return True

    def _time(self, line: Timeline, position: Position, step: Step) -> None:
        before, cutter = step.before.cutter, step.after.cutter
        run = line.runs_of.get(before, (None,))[0] if before is not None else None
        if before is not None and run is not None and before != step.after.ball:
            leaving = _Leaving(run.start, self._until_out(line, before, run.start), step)
            key = position, step.action.kind
            if key not in self.leaves or leaving.seconds > self.leaves[key].seconds:
                self.leaves[key] = leaving
        origin = next((move.origin for move in step.moves if move.target == cutter), None)
        if origin is None:
            return
        after = position.carried(step.after, step.travel)
        arrives = line.runs_of[origin][-1].end
        stay = _Stay(self._since_in(line, origin, arrives), arrives - line.ready, position, step)
        stays = self.stays.setdefault(after, [])
        # Positions come nearest first: a later one counts only if it keeps him in the lane for longer.
        if not stays or stay.seconds - stay.late > stays[-1].seconds - stays[-1].late:
            stays.append(stay)

    def _until_out(self, line: Timeline, origin: str, start: float) -> float:
        """Return how long a player who starts to run at ``start`` is in the lane before he is out of it."""
        return self._counted(line, origin, start, TICK_S)

    def _since_in(self, line: Timeline, origin: str, arrives: float) -> float:
        """Return how long a player has been in the lane when he arrives."""
        return self._counted(line, origin, arrives, -TICK_S)

    def _counted(self, line: Timeline, origin: str, first: float, tick: float) -> float:
        key = id(line), origin, first
        found = self.seconds.get(key)
        if found is None:
            moments = (first + number * tick for number in range(int(line.end / TICK_S) + 1))
            inside = takewhile(lambda t: self.court.in_lane(line.position(origin, t)), moments)
            found = self.seconds[key] = TICK_S * sum(1 for _ in inside)
        return found
