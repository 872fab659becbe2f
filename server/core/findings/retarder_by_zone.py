"""What the residential code asks inside a wall against vapour, by zone and outside insulation."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from server.core.assembly import Layer, SolidLayer
from server.core.films import HOUR_FT2_DEGF_PER_BTU as LABEL
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part, Zone
from server.core.findings.layers import (
    CLOSED,
    ONE_PERM,
    Cavity,
    cavity_of,
    diffusion_thickness,
    diffusion_through,
    is_foam,
    is_vented,
    up_to_ventilation,
)
from server.core.findings.masonry_outside import masonry_outside
from server.core.findings.sheathing_in_winter import STEP, USUAL_BOARD
from server.core.house import Kind

DEEPEST_2X4 = 0.0953  # m: 3 3/4 in; a deeper bay takes the row for 2x6
MARINE_4 = 4.5  # the row of zone 4C
# Least continuous R, h ft2 degF/Btu, over 2x4 and over 2x6 framing. Class III retarder inside: IRC
# 2021 Table R702.7(3); class II inside and foam outside: Table R702.7(4). Both memory.
CLASS_III = {
    MARINE_4: (2.5, 3.75),
    5.0: (5.0, 7.5),
    6.0: (7.5, 11.25),
    7.0: (10.0, 15.0),
    8.0: (12.5, 20.0),
}
CLASS_II_AND_FOAM = {
    3.0: (2.0, 2.0),
    4.0: (3.0, 5.0),
    MARINE_4: (3.0, 5.0),
    5.0: (3.0, 5.0),
    6.0: (3.0, 5.0),
    7.0: (5.0, 7.5),
    8.0: (7.5, 10.0),
}
CLASS_I = 10.0 * ONE_PERM  # m: 0.1 perm and less
CLASS_II = CLOSED  # m: 1 perm and less
OPEN_SHEATHING = ONE_PERM / 10.0  # m: fibreboard and gypsum sheathing pass more than 10 perm
VENTED_IS_ENOUGH, VENTED_OVER_OPEN = 5.0, 6.0  # zones, IRC 2021 Table R702.7(3), memory
NO_CLASS_I_BELOW = MARINE_4  # IRC 2021 Table R702.7(2), memory
WARMEST_ZONES = 2.0  # in which class II is not for every material, the same table


def row_of(zone: Zone) -> float:
    """The row of the table: the zone's number, marine 4 between 4 and 5.

    Shapes: one zone. Range: any. Raises: nothing.
    Source: IRC 2021 Table R702.7(3) (memory).
    """
    return MARINE_4 if zone.number == 4 and zone.is_marine else float(zone.number)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.shell:
        cavity = cavity_of(part.layers)
        if part.kind is not Kind.WALL or not part.faces_outdoors:
            continue
        if cavity is None or not cavity.is_filled:
            continue
        if masonry_outside(part, cavity) == "solid":
            continue  # the tables are for frame walls
        if case.zone is None:
            yield Found("zone not known", (part.name,))
            continue
        retarder = _Retarder.of(cavity, case.paint(part), row_of(case.zone))
        if retarder is None:
            yield Found("vapour not known", (part.name,))
        else:
            yield _judged(part, cavity, case.zone, retarder)


@dataclass(frozen=True, slots=True)
class _Retarder:
    """The tightest layer on the room side: its s_d, m, and whether it is a sheet of class II."""

    diffusion: float
    is_sheet: bool

    @classmethod
    def of(cls, cavity: Cavity, paint: float, row: float) -> _Retarder | None:
        """Foam in the bay is one where a zone asks for one; None where a figure is unknown."""
        layers = list(cavity.inside)
        if row > WARMEST_ZONES and cavity.bay.fill is not None and is_foam(cavity.bay.fill):
            layers.append(cavity.bay)
        each = [(diffusion_thickness(layer), layer) for layer in layers]
        if any(known is None for known, _layer in each):
            return None
        tightest = max([paint, *(known or 0.0 for known, _layer in each)])
        sheets = [known for known, layer in each if _is_sheet(layer)]
        return cls(tightest, tightest in sheets)


def _is_sheet(layer: Layer) -> bool:
    return isinstance(layer, SolidLayer) and layer.material.group == "membrane"


def _judged(part: Part, cavity: Cavity, zone: Zone, retarder: _Retarder) -> Found:
    row, tightest = row_of(zone), retarder.diffusion
    facts: dict[str, Fact] = {"zone": f"{zone.number}{zone.letter}"}
    outside = _Outside.of(cavity)
    if row < NO_CLASS_I_BELOW and (tightest < CLASS_II or tightest >= CLASS_I):
        outcome = "too tight" if tightest >= CLASS_I else "none asked"
        return Found(outcome, (part.name,), facts)
    if tightest >= CLASS_I:
        return Found(_with_class_i(outside), (part.name,), facts)
    if tightest >= CLASS_II and not outside.has_foam:
        outcome = _in_warmest(retarder) if row <= WARMEST_ZONES else _with_class_ii(row)
        return Found(outcome, (part.name,), facts)
    if row <= WARMEST_ZONES:
        return Found(_in_warmest(retarder), (part.name,), facts)
    table = CLASS_II_AND_FOAM if tightest >= CLASS_II else CLASS_III
    return _by_table(part, cavity, row, table[row], facts)


def _with_class_i(outside: _Outside) -> str:
    if outside.diffusion >= CLASS_I:
        return "class I on both sides"
    is_closed = outside.has_foam and outside.diffusion > CLOSED
    return "retarder inside, foam outside" if is_closed else "retarder inside"


def _in_warmest(retarder: _Retarder) -> str:
    """Sheets of class II open when damp, as kraft and variable membranes do."""
    return "opens when damp" if retarder.is_sheet else "tight for the zone"


def _with_class_ii(row: float) -> str:
    return "none asked" if row < NO_CLASS_I_BELOW else "retarder inside"


@dataclass(frozen=True, slots=True)
class _Outside:
    """What lies outside of the bays, up to a gap that dries: s_d, m, and whether foam is in it."""

    diffusion: float
    has_foam: bool

    @classmethod
    def of(cls, cavity: Cavity) -> _Outside:
        layers = up_to_ventilation(cavity.outside)
        foam = any(isinstance(each, SolidLayer) and is_foam(each.material) for each in layers)
        return cls(diffusion_through(layers) or 0.0, foam)


def _by_table(
    part: Part,
    cavity: Cavity,
    row: float,
    figures: tuple[float, float],
    facts: dict[str, Fact],
) -> Found:
    needed = figures[cavity.filled_depth > DEEPEST_2X4] * LABEL
    has = cavity.continuous_resistance
    limit = Quantity(round(needed, 4), "resistance")
    measured = Measured(Quantity(round(has, 3), "resistance"), limit, True)
    facts = facts | {"has": measured.figure, "needed": limit}
    if has >= needed - 1e-6:
        return Found("enough outside", (part.name,), facts, measured)
    if _vented_is_enough(part, cavity, row):
        return Found("vented cladding", (part.name,), {"zone": facts["zone"]})
    boards = cavity.boards_outside
    conductivity = float(boards[-1].material.conductivity) if boards else USUAL_BOARD
    board = math.ceil(needed * conductivity / STEP - 1e-9) * STEP
    facts["board"] = Quantity(board, "thickness")
    if not part.is_changed:
        return Found("found with too little outside", (part.name,), facts, measured)
    behind = ", behind brick" if masonry_outside(part, cavity) == "veneer" else ""
    return Found(_too_little(cavity, row) + behind, (part.name,), facts, measured)


def _too_little(cavity: Cavity, row: float) -> str:
    """By whether a class II retarder inside would be enough instead."""
    outside = _Outside.of(cavity)
    if outside.diffusion > CLOSED:
        return "too little outside, closed"
    deep = cavity.filled_depth > DEEPEST_2X4
    needed = CLASS_II_AND_FOAM[row][deep] * LABEL
    if outside.has_foam and cavity.continuous_resistance < needed - 1e-6:
        return "too little foam outside"
    return "too little outside"


def _vented_is_enough(part: Part, cavity: Cavity, row: float) -> bool:
    """Where cladding hung off the sheathing is enough by the table."""
    if not is_vented(part.layers) or row > VENTED_OVER_OPEN:
        return False
    sheathing = diffusion_thickness(cavity.outside[0])
    return row <= VENTED_IS_ENOUGH or (sheathing is not None and sheathing <= OPEN_SHEATHING)


RULE = Rule(
    "retarder by zone",
    {
        "none asked": Severity.GOOD,
        "retarder inside": Severity.GOOD,
        "retarder inside, foam outside": Severity.WATCH,
        "enough outside": Severity.GOOD,
        "vented cladding": Severity.GOOD,
        "too little outside": Severity.MEND,
        "too little outside, closed": Severity.MEND,
        "too little foam outside": Severity.MEND,
        "too little outside, behind brick": Severity.MEND,
        "too little outside, closed, behind brick": Severity.MEND,
        "too little foam outside, behind brick": Severity.MEND,
        "found with too little outside": Severity.WATCH,
        "class I on both sides": Severity.MEND,
        "tight for the zone": Severity.WATCH,
        "opens when damp": Severity.GOOD,
        "too tight": Severity.MEND,
        "vapour not known": Severity.OPEN,
        "zone not known": Severity.OPEN,
    },
    _judge,
)
