"""Ink in a document: what coaches drew, beside the step it was drawn on. What was rubbed out stays behind.

A chain's is a list of ``{"step": place in its tree, "strokes": [[id, tool, colour, made, points], ...]}``,
tool, colour and points as on the wire, and no more of it than a board takes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from itertools import accumulate
from typing import Any, Final

from sqlalchemy import delete, func, insert, select
from sqlalchemy.orm import Session

from engine.words.spoken import say
from webapp.boards.ink import CHAIN_MAX, DRAWN, STEP_MAX
from webapp.store.tables import Chain, Ink
from webapp.wire import live_messages, schemas
from webapp.wire.refusals import Refused

Json = dict[str, Any]
#: [id, tool, colour, made, points]
Stroke = list[Any]

#: The last second of the year 9999, since 1970 UTC.
_LAST_S: Final = 253_402_300_799


def written(session: Session, team_id: str) -> dict[int, list[Stroke]]:
    """Return the strokes of all a team's chains by the node they were drawn on, in the order of drawing."""
    mine = select(Ink).join(Chain, Chain.id == Ink.chain_id).where(Chain.team_id == team_id)
    found: dict[int, list[Stroke]] = {}
    for row in session.scalars(mine.where(Ink.gone.is_(False)).order_by(DRAWN)):
        stroke = [row.id, row.tool, row.colour, row.made, json.loads(row.points)]
        found.setdefault(row.node_id, []).append(stroke)
    return found


def pages(strokes: Mapping[int, list[Stroke]], nodes: Sequence[int]) -> list[Json]:
    """Return the ink of one chain, ``nodes`` being the nodes of its tree in their order."""
    return [{"step": index, "strokes": strokes[node]} for index, node in enumerate(nodes) if node in strokes]


def complaint(given: Any) -> str | None:
    """Return what is wrong with the ink of one chain, and where; None if nothing is."""
    if not isinstance(given, list) or not given:
        return say("refusals.team_file_ink.not_list_steps_were")
    steps: set[int] = set()
    total = 0
    for number, page in enumerate(given, start=1):
        if not isinstance(page, dict) or page.keys() != {"step", "strokes"}:
            return say("refusals.team_file_ink.entry_not_step_its", number=number)
        step, strokes = page["step"], page["strokes"]
        if type(step) is not int or step < 0 or step in steps:
            return say("refusals.team_file_ink.entry_names_no_step", number=number)
        if not isinstance(strokes, list) or not 1 <= len(strokes) <= STEP_MAX:
            return say("refusals.team_file_ink.entry_has_not_strokes", number=number, step_max=STEP_MAX)
        steps.add(step)
        total += len(strokes)
        if total > CHAIN_MAX:
            return say("refusals.team_file_ink.has_more_than_strokes", chain_max=CHAIN_MAX)
        ids: set[str] = set()
        for place, stroke in enumerate(strokes, start=1):
            wrong = _stroke(stroke, ids)
            if wrong is not None:
                return say("refusals.team_file_ink.entry_stroke", number=number, place=place, wrong=wrong)
    return None


def _stroke(given: Any, ids: set[str]) -> str | None:
    if not isinstance(given, list) or [type(part) for part in given] != [str, int, int, int, list]:
        return say("refusals.team_file_ink.not_id_tool_colour")
    stroke, tool, colour, made, points = given
    if not schemas.ID.regex.match(stroke):
        return say("refusals.team_file_ink.has_id_not_letters")
    if stroke in ids:
        return say("refusals.team_file_ink.twice")
    ids.add(stroke)
    if not 0 <= tool < live_messages.INK_TOOLS:
        return say("refusals.team_file_ink.was_drawn_with_tool")
    if not 0 <= colour < live_messages.INK_COLOURS:
        return say("refusals.team_file_ink.has_colour_not")
    if not 0 <= made <= _LAST_S:
        return say("refusals.team_file_ink.has_no_time_can")
    if not 3 <= len(points) <= 3 * live_messages.INK_POINTS_MAX or len(points) % 3:
        return say("refusals.team_file_ink.has_not_points_three", ink_points_max=live_messages.INK_POINTS_MAX)
    if any(type(value) is not int or abs(value) > 2 * schemas.FAR_CM for value in points):
        return say("refusals.team_file_ink.has_point_cannot")
    x, y, pressure = (list(accumulate(points[axis::3])) for axis in range(3))
    if max(map(abs, (*x, *y))) > schemas.FAR_CM:
        return say("refusals.team_file_ink.leaves_floor")
    return (
        None
        if 0 <= min(pressure) <= max(pressure) <= 100
        else say("refusals.team_file_ink.pressed_harder_than_can")
    )


def told_apart(given: Sequence[Json], words: Sequence[tuple[str, ...]]) -> frozenset[tuple[Any, ...]]:
    """Return what makes the ink of two chains differ. ``words``: the actions that lead to each step."""
    return frozenset(
        (words[page["step"]], stroke, tool, colour, tuple(points))
        for page in given
        for stroke, tool, colour, _, points in page["strokes"]
    )


def bring(session: Session, chain: Chain, nodes: Sequence[int], given: Sequence[Json]) -> None:
    """Add the ink of a document to a chain whose ``nodes`` are those of the document's tree, in its order.

    What was drawn here stays; of a stroke that is in both, the document's counts, even if it was rubbed out
    here. Raises ``Refused`` if the chain cannot hold so much.
    """
    known = {
        (row.node_id, row.id): row for row in session.scalars(select(Ink).where(Ink.chain_id == chain.id))
    }
    rows = []
    for page in given:
        node = nodes[page["step"]]
        for stroke, tool, colour, made, numbers in page["strokes"]:
            points = json.dumps(numbers, separators=(",", ":"))
            row = known.get((node, stroke))
            if row is None:
                names = {"node_id": node, "id": stroke, "chain_id": chain.id, "gone": False}
                rows.append({**names, "tool": tool, "colour": colour, "points": points, "made": made})
            else:
                row.tool, row.colour, row.points, row.made, row.gone = tool, colour, points, made, False
    session.flush()
    if rows:
        session.execute(insert(Ink), rows)
    if known:
        _fits(session, chain)


def _fits(session: Session, chain: Chain) -> None:
    count = select(func.count()).select_from(Ink).where(Ink.chain_id == chain.id)
    full = select(Ink.node_id).where(Ink.chain_id == chain.id).group_by(Ink.node_id)
    for node in session.scalars(full.having(func.count() > STEP_MAX)).all():
        # Rubbed out long since, so nobody brings it back any more.
        session.execute(delete(Ink).where(Ink.node_id == node, Ink.gone.is_(True)))
    over = session.scalar(select(func.count()).select_from(full.having(func.count() > STEP_MAX).subquery()))
    if over or (session.scalar(count.where(Ink.gone.is_(False))) or 0) > CHAIN_MAX:
        raise Refused(
            "full_ink_both",
            play=f"“{chain.name}”" if chain.name else say("refusals.team_file_ink.without_name"),
        )
