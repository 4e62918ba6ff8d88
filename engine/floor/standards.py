"""Published dimensions of the four court standards, as literal data.

Every figure is written in the unit its rule book uses and turned into metres by :func:`_ft`; nothing here
is worked out from anything else. Lines are measured to the edge the rule names: court lengths between the
inner edges of the boundary lines, the three-point line and the circles to their outer edge, the lane to the
outer edge of its side lines, the free-throw line to its far edge, the no-charge arc to its inner edge.

Sources, and how they were read:

* FIBA: Official Basketball Rules 2020, Art. 2, as published by the Finnish federation (read there), and
  2024, Art. 2 (read in a text quoting it).
* NBA: Rule 1 (read in a text quoting it).
* NCAA: court diagram of 17 June 2019 (read in a text quoting it). One entry covers men and women: the line
  that diagram gives for the men is the one both play on.
* NFHS: Basketball Rules Book 2019-20, Rule 1 (read in a text quoting it).
* "sportypy": data of the package sportypy 1.0.0, where no rule text was seen.

Not seen, and therefore left out: the lane-side marks of the NFHS court.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final


def _ft(feet: float, inches: float = 0.0) -> float:
    """Return feet and inches in metres (exact by definition: one inch is 25.4 mm)."""
    return (feet * 12.0 + inches) * 0.0254


@dataclass(frozen=True, slots=True)
class Standard:
    """One court standard; every length in metres.

    ``length``, ``width``: the whole court. ``three_point_radius``: the arc, from the basket's centre.
    ``three_point_straight``: the straight parts, from the mid-line. ``free_throw_line``, ``basket``,
    ``board``: distance from the baseline of the free-throw line, the basket's centre and the board's face.
    ``circle_radius``: centre and free-throw circles. ``no_charge_radius``: None where there is no such
    arc. ``lane_marks``: beginning and end of each mark beside the lane, from the baseline.
    ``lane_mark_depth``: how far they stick out from the lane. ``block``: where a player on the block stands,
    from the baseline: beside the middle of the block mark. ``dashed_half``: whether the half of the
    free-throw circle inside the lane is drawn, dashed.
    """

    name: str
    title: str
    length: float
    width: float
    line_width: float
    three_point_radius: float
    three_point_straight: float
    lane_width: float
    free_throw_line: float
    circle_radius: float
    no_charge_radius: float | None
    basket: float
    board: float
    board_width: float
    ring_diameter: float
    ring_height: float
    lane_marks: tuple[tuple[float, float], ...]
    lane_mark_depth: float
    block: float
    dashed_half: bool


FIBA: Final = Standard(
    name="fiba",
    title="FIBA",
    # FIBA Art. 2, 2020 and 2024, unless noted.
    length=28.0,
    width=15.0,
    line_width=0.05,
    three_point_radius=6.75,
    three_point_straight=6.60,  # outer edge 0.90 from the sideline
    lane_width=4.90,
    free_throw_line=5.80,
    circle_radius=1.80,
    no_charge_radius=1.25,  # inner edge; 1.30 to the outer edge
    basket=1.575,
    board=1.20,
    board_width=1.80,
    ring_diameter=0.45,
    ring_height=3.05,
    # First mark 1.75 from the baseline, a block 0.40 long, 0.85 between marks. Marks one line wide.
    lane_marks=((1.75, 1.80), (2.65, 3.05), (3.90, 3.95), (4.80, 4.85)),
    lane_mark_depth=0.10,  # sportypy
    block=2.85,
    dashed_half=False,  # "semi-circles"; sportypy draws none either
)

NBA: Final = Standard(
    name="nba",
    title="NBA",
    # NBA Rule 1, unless noted.
    length=_ft(94),
    width=_ft(50),
    line_width=_ft(0, 2),
    three_point_radius=_ft(23, 9),
    three_point_straight=_ft(22),  # 3 ft from the sideline
    lane_width=_ft(16),
    free_throw_line=_ft(19),  # 15 ft from the board's face, which is 4 ft from the baseline
    circle_radius=_ft(6),
    no_charge_radius=_ft(4),
    basket=_ft(5.25),
    board=_ft(4),
    board_width=_ft(6),  # sportypy
    ring_diameter=_ft(0, 18),
    ring_height=_ft(10),
    # First mark at 7 ft: Rule 1. The three others, 10 in and twice 3 ft further on, and the depth: sportypy.
    lane_marks=(
        (_ft(7), _ft(7, 2)),
        (_ft(8), _ft(8, 2)),
        (_ft(11, 2), _ft(11, 4)),
        (_ft(14, 4), _ft(14, 6)),
    ),
    lane_mark_depth=_ft(0, 6),
    block=_ft(7, 7),  # between the first two marks
    dashed_half=True,  # sportypy
)

NCAA: Final = Standard(
    name="ncaa",
    title="NCAA (men and women)",
    # NCAA court diagram, 17 June 2019, unless noted.
    length=_ft(94),
    width=_ft(50),
    line_width=_ft(0, 2),
    three_point_radius=_ft(22, 1.75),
    three_point_straight=_ft(21, 7.875),  # 40 1/8 in from the sideline
    lane_width=_ft(12),
    free_throw_line=_ft(19),
    circle_radius=_ft(6),
    no_charge_radius=_ft(4),
    basket=_ft(0, 63),
    board=_ft(4),
    board_width=_ft(6),  # sportypy
    ring_diameter=_ft(0, 18),
    ring_height=_ft(10),
    # A 12 in block at 7 ft, then 2 in marks with 3 ft between them, 8 in deep.
    lane_marks=(
        (_ft(7), _ft(8)),
        (_ft(11), _ft(11, 2)),
        (_ft(14, 2), _ft(14, 4)),
        (_ft(17, 4), _ft(17, 6)),  # this fourth one: sportypy
    ),
    lane_mark_depth=_ft(0, 8),
    block=_ft(7, 6),
    dashed_half=False,  # sportypy draws none
)

NFHS: Final = Standard(
    name="nfhs",
    title="NFHS (high school)",
    # NFHS Basketball Rules Book 2019-20, Rule 1, unless noted.
    length=_ft(84),
    width=_ft(50),
    line_width=_ft(0, 2),
    three_point_radius=_ft(19, 9),
    three_point_straight=_ft(19, 9),  # 63 in long: it ends level with the basket's centre
    lane_width=_ft(12),
    free_throw_line=_ft(19),
    circle_radius=_ft(6),
    no_charge_radius=None,
    basket=_ft(0, 63),
    board=_ft(4),
    board_width=_ft(6),  # sportypy
    ring_diameter=_ft(0, 18),
    ring_height=_ft(10),
    lane_marks=(),  # not seen
    lane_mark_depth=0.0,
    block=_ft(7, 6),  # as on the NCAA court; from memory
    dashed_half=False,  # sportypy draws none
)

#: The standards that ship, by name.
STANDARDS: Final[Mapping[str, Standard]] = MappingProxyType(
    {standard.name: standard for standard in (FIBA, NBA, NCAA, NFHS)}
)
