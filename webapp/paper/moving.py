"""A moving picture: an SVG that plays a chain by itself, over and over, in any browser, without a script.

Players and ball are moved by the engine's own timeline (routes and speeds), written down as places between
which a straight line is near enough. What cannot play it shows where everybody starts, and the first step.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from webapp.paper.blocks import plate
from webapp.paper.diagram import parts
from webapp.paper.drawn import over, under
from webapp.paper.floor import Plan
from webapp.paper.fonts import CAPITAL, shortened, wrapped, written
from webapp.paper.keyframes import ball_keys, extras, film, is_lying, keys
from webapp.paper.layout import looking
from webapp.paper.marks import XY, Mark, Text, Who
from webapp.paper.options import Options
from webapp.paper.people import ball as ball_mark
from webapp.paper.people import figure
from webapp.paper.sheet import Sheet
from webapp.paper.speech import Speech, speech
from webapp.paper.svg import document, elements, number

#: How long everybody stands before the first step, and after the last one before all begins anew, seconds.
LEAD_S: Final = 1.2
HOLD_S: Final = 2.5

#: Size of the words under the floor, and room for them, centimetres of the floor.
_WORDS: Final = 54.0
_UNDER: Final = 200.0

#: Width of the picture on a screen, pixels, where nothing else says.
_PIXELS: Final = 720


def moving(sheet: Sheet, options: Options) -> str:
    """Return the moving picture of a sheet's steps."""
    said = speech(sheet, named=options.names, mirrored=options.mirror)
    look = looking(options, said)
    played = film(sheet, options.breath)
    whole = LEAD_S + played.end + HOLD_S
    acts = sheet.acts or (None,)
    drawn = [parts(sheet, act, look) for act in acts]
    seen = drawn[0].seen
    made = document(seen.width, seen.height + _UNDER, written(sheet.title))
    made["width"], made["height"] = _PIXELS, round(_PIXELS * (seen.height + _UNDER) / seen.width)
    _add(made, made, drawn[0].floor)
    begins = [0.0, *(LEAD_S + cue.start for cue in played.cues[1:])]
    for i, layer in enumerate(drawn):
        shown = made.g(opacity=0 if i else 1, class_="scene")
        ink = sheet.drawn(acts[i])
        below, above = under(ink, seen, look.size), over(ink, seen, look.size)
        _add(made, shown, [*below, *layer.trails, *above, *_caption(sheet, i, said, seen)])
        if len(drawn) > 1:
            _turns(made, shown, begins[i], begins[i + 1] if i + 1 < len(drawn) else whole, whole)
        made.add(shown)
    edge = look.radius + 6 * look.size

    def laid(place: XY) -> XY:
        return seen.inside(seen.at(place), edge)

    everybody: tuple[Who, ...] = (*extras(played), *played.players)
    for who in everybody:
        one = made.g(class_="player" if isinstance(who, int) else "extra")
        one["data-of"] = who
        _add(made, one, figure(who, 0.0, 0.0, look, edge=7.0))
        _moves(made, one, [(t, laid(place)) for t, place in keys(played, who)], whole)
        if isinstance(who, str):
            _comes_and_goes(made, one, [(LEAD_S + t0, LEAD_S + t1) for t0, t1 in played.shown[who]], whole)
        made.add(one)
    ball = made.g(class_="ball")
    # Beside its holder, so that his number is seen; on the floor it lies where it lies.
    beside = 0.98 * look.radius
    _add(made, ball, [ball_mark(beside, beside, look)])
    stops = []
    for t, place in ball_keys(played):
        x, y = laid(place)
        off = beside if is_lying(played, t) else 0.0
        stops.append((t, (x - off, y - off)))
    _moves(made, ball, stops, whole)
    made.add(ball)
    text: str = made.tostring()
    return text


def _add(made: Any, group: Any, marks: Sequence[Mark]) -> None:
    for element in elements(made, marks):
        group.add(element)


def _caption(sheet: Sheet, index: int, said: Speech, seen: Plan) -> list[Mark]:
    """Return what stands under the floor while a step is played: its number, and what happens."""
    x, y = 45.0, seen.height + 18
    if not sheet.acts:
        title = shortened(written(sheet.title), _WORDS, seen.width - 2 * x, bold=True)
        return [Text(x, y + _WORDS, _WORDS, title, "caption", bold=True)]
    act = sheet.acts[index]
    marks = plate(act.number, x, y, _WORDS)
    left = x + _WORDS * (0.75 + 1.0 * max(1.3, 0.72 * len(str(act.number)) + 0.6))
    lines = wrapped(said.heading(act), _WORDS, seen.width - 45 - left, bold=True)
    for i, line in enumerate(lines[:3]):
        base = y + _WORDS * (0.65 + CAPITAL / 2 + 1.22 * i)
        marks.append(Text(left, base, _WORDS, line, "caption", bold=True))
    return marks


def _moves(made: Any, group: Any, keys: Sequence[tuple[float, XY]], whole: float) -> None:
    """Move a group through ``keys`` (seconds of the film, places), within ``whole`` seconds, for ever."""
    group["transform"] = f"translate({number(keys[0][1][0])} {number(keys[0][1][1])})"
    stops = _needed(keys)
    if len(stops) < 2:
        return
    times = [0.0, *((LEAD_S + t) / whole for t, _ in stops), 1.0]
    places = [stops[0][1], *(place for _, place in stops), stops[-1][1]]
    way = made.animateTransform("translate")
    way["attributeName"] = "transform"
    way["values"] = ";".join(f"{round(x, 1):g} {round(y, 1):g}" for x, y in places)
    way["keyTimes"] = ";".join(_time(t) for t in times)
    _for_ever(way, whole)
    group.add(way)


def _needed(keys: Sequence[tuple[float, XY]]) -> list[tuple[float, XY]]:
    """Return the keys without those in the midst of standing still, or at the time of the one before."""
    kept: list[tuple[float, XY]] = []
    for i, (t, place) in enumerate(keys):
        still = 0 < i < len(keys) - 1 and keys[i - 1][1] == place == keys[i + 1][1]
        if not still and not (kept and t - kept[-1][0] < 1e-6):
            kept.append((t, place))
    return kept if any(place != kept[0][1] for _, place in kept) else []


def _comes_and_goes(made: Any, group: Any, shown: Sequence[tuple[float, float]], whole: float) -> None:
    """Show a group only while its times last; from the very beginning if it is in the first scene."""
    stops: list[tuple[float, int]] = [(0.0, 0)]
    for begin, end in shown:
        first = begin <= LEAD_S
        stops = [(0.0, 1)] if first else [*stops, (begin, 1)]
        if end < whole:
            stops.append((end, 0))
    group["opacity"] = stops[0][1]
    if len(stops) > 1:
        _steps(made, group, stops, whole)


def _turns(made: Any, group: Any, begin: float, end: float, whole: float) -> None:
    """Show a group from ``begin`` to ``end`` only."""
    stops = [(0.0, 0), (begin, 1), (end, 0)]
    if begin == 0.0:
        del stops[0]
    if end >= whole:
        del stops[-1]
    _steps(made, group, stops, whole)


def _steps(made: Any, group: Any, stops: Sequence[tuple[float, int]], whole: float) -> None:
    turn = made.animate(attributeName="opacity", calcMode="discrete")
    turn["values"] = ";".join(str(value) for _, value in stops)
    turn["keyTimes"] = ";".join(_time(t / whole) for t, _ in stops)
    _for_ever(turn, whole)
    group.add(turn)


def _for_ever(way: Any, whole: float) -> None:
    way["dur"] = f"{whole:.3f}s"
    way["repeatCount"] = "indefinite"


def _time(share: float) -> str:
    return f"{share:.6f}".rstrip("0").rstrip(".") or "0"
