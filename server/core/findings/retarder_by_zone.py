"""What the residential code asks inside a wall against vapour, by zone and outside insulation."""

from __future__ import annotations

import math
from collections.abc import Iterator

from server.core.films import HOUR_FT2_DEGF_PER_BTU as LABEL
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part, Zone
from server.core.findings.layers import (
    ONE_PERM,
    Cavity,
    cavity_of,
    diffusion_thickness,
    is_vented,
)
from server.core.findings.sheathing_in_winter import STEP, USUAL_BOARD
from server.core.house import Kind

DEEPEST_2X4 = 0.0953  # m: 3 3/4 in; a deeper bay takes the row for 2x6
# IRC 2021 Table R702.7(3), least continuous R for a class III retarder inside, h ft2 degF/Btu over
# 2x4 and over 2x6 framing, memory. 4.5 is marine 4.
CLASS_III = {
    4.5: (2.5, 3.75),
    5.0: (5.0, 7.5),
    6.0: (7.5, 11.25),
    7.0: (10.0, 15.0),
    8.0: (12.5, 20.0),
}
CLASS_I = 10.0 * ONE_PERM  # m: 0.1 perm and less
CLASS_II = ONE_PERM  # m: 1 perm and less
OPEN_SHEATHING = ONE_PERM / 10.0  # m: fibreboard and gypsum sheathing pass more than 10 perm
VENTED_IS_ENOUGH, VENTED_OVER_OPEN = 5.0, 6.0  # zones, IRC 2021 Table R702.7(3), memory


def row_of(zone: Zone) -> float:
    """The row of the table: the zone's number, marine 4 between 4 and 5.

    Shapes: one zone. Range: any. Raises: nothing.
    Source: IRC 2021 Table R702.7(3) (memory).
    """
    return 4.5 if zone.number == 4 and zone.is_marine else float(zone.number)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.shell:
        cavity = cavity_of(part.layers)
        if part.kind is not Kind.WALL or not part.faces_outdoors:
            continue
        if cavity is None or not cavity.is_filled:
            continue
        if case.zone is None:
            yield Found("zone not known", (part.name,))
        else:
            yield _judged(part, cavity, case.zone, case.paint(part))


def _judged(part: Part, cavity: Cavity, zone: Zone, paint: float) -> Found:
    tightest = max(paint, *(diffusion_thickness(layer) or 0.0 for layer in cavity.inside), 0.0)
    row = row_of(zone)
    facts: dict[str, Fact] = {"zone": f"{zone.number}{zone.letter}"}
    if row < min(CLASS_III):
        too_tight = tightest >= (CLASS_II if zone.number <= 2 else CLASS_I)
        return Found("too tight" if too_tight else "none asked", (part.name,), facts)
    if tightest >= CLASS_II:
        return Found("retarder inside", (part.name,), facts)
    deep = float(cavity.bay.depth) > DEEPEST_2X4
    needed = CLASS_III[row][deep] * LABEL
    has = cavity.continuous_resistance
    measured = Measured(
        Quantity(round(has, 3), "resistance"), Quantity(round(needed, 4), "resistance"), True
    )
    facts |= {"has": measured.figure, "needed": Quantity(round(needed, 4), "resistance")}
    if has >= needed - 1e-6:
        return Found("enough outside", (part.name,), facts, measured)
    if _vented_is_enough(part, cavity, row):
        return Found("vented cladding", (part.name,), facts)
    boards = cavity.boards_outside
    conductivity = float(boards[-1].material.conductivity) if boards else USUAL_BOARD
    board = math.ceil(needed * conductivity / STEP - 1e-9) * STEP
    facts["board"] = Quantity(board, "thickness")
    return Found("too little outside", (part.name,), facts, measured)


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
        "enough outside": Severity.GOOD,
        "vented cladding": Severity.GOOD,
        "too little outside": Severity.MEND,
        "too tight": Severity.MEND,
        "zone not known": Severity.OPEN,
    },
    _judge,
)
