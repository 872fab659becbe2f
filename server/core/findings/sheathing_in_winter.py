"""Whether the sheathing stays so warm in winter that indoor air which leaks in leaves it dry."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from server.core.assembly import Layer, SolidLayer
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.brick_veneer import washed_from
from server.core.findings.case import Case, Part
from server.core.findings.layers import (
    BOARDS,
    CLOSED,
    Cavity,
    cavity_of,
    diffusion_through,
    insulates,
    is_foam,
    is_open_gap,
    up_to_ventilation,
)
from server.core.findings.masonry_outside import masonry_outside
from server.core.moisture import saturation_temperature
from server.core.temperature_line import Route, route_steps

COLDEST = 3  # months
STEP = 0.0127  # m: board is bought in steps of 1/2 in
SKINS = BOARDS | {"sheathing", "cladding", "board", "structure"}
USUAL_BOARD = 0.036  # W/(m K): rigid board of R-4 an inch where none is there yet (common practice)


@dataclass(frozen=True, slots=True)
class Winter:
    """Means of the three coldest months: deg C, and the dew point of the air indoors."""

    inside: float
    outside: float
    dew_point: float


def least_outer_resistance(inner: float, winter: Winter) -> float:
    """R outside of a plane, film included, that holds it at the dew point of the air indoors.

    R_out = R_in (T_d - T_out)/(T_in - T_d), from the straight fall of temperature.
    Shapes: floats; m2 K/W and deg C. Range: a dew point below the air's temperature; 0 where none
    is needed. Raises: nothing.
    Source: Fourier's law in one dimension; the rule is common practice.
    """
    needed = (winter.dew_point - winter.outside) / (winter.inside - winter.dew_point)
    return max(0.0, inner * needed)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.shell:
        cavity = cavity_of(part.layers)
        if part.is_opening or not part.faces_outdoors or cavity is None:
            continue
        if not any(map(insulates, part.layers)) or not _has_skin(part, cavity):
            continue
        winter = _winter(case, part)
        if winter is None:
            yield Found("humidity not known", (part.name,))
        elif diffusion_through(up_to_ventilation(cavity.outside)) is None:
            yield Found("vapour not known", (part.name,))
        elif winter.inside - winter.dew_point > 0.0:
            yield _judged(case, part, cavity, winter)


def _has_skin(part: Part, cavity: Cavity) -> bool:
    """Whether indoor air that leaks into the bays meets sheathing or masonry outside of them.

    None does where outdoor air blows past the fill, or where foam fills the bay.
    """
    if cavity.bay.fill is not None and is_foam(cavity.bay.fill):
        return False
    outside = [each for each in cavity.outside if not _is_membrane(each)]
    if not outside or is_open_gap(outside[0]):
        return False
    if masonry_outside(part, cavity) == "solid":
        return True
    if not isinstance(outside[0], SolidLayer):
        return False
    return outside[0].material.group in SKINS


def _is_membrane(layer: Layer) -> bool:
    return isinstance(layer, SolidLayer) and layer.material.group in ("membrane", "air-tight")


def _winter(case: Case, part: Part) -> Winter | None:
    sides = case.sides(part)
    if sides is None:
        return None
    inside, outside = sides
    coldest = sorted(range(12), key=lambda month: outside.temperature[month])[:COLDEST]

    def mean(figures: tuple[float, ...]) -> float:
        return sum(figures[month] for month in coldest) / COLDEST

    dew_point = saturation_temperature(mean(inside.pressure))
    return Winter(mean(inside.temperature), mean(outside.temperature), dew_point)


def _judged(case: Case, part: Part, cavity: Cavity, winter: Winter) -> Found:
    films = case.films(part)
    steps = route_steps(_that_warm(case, part), Route.FILL, part.component.heat_flow, *films)
    bay = len(cavity.inside)
    inner = sum(float(s.resistance) for s in steps if s.layer is not None and s.layer <= bay)
    inner += float(steps[0].resistance)
    whole = sum(float(step.resistance) for step in steps)
    temperature = winter.inside - (winter.inside - winter.outside) * inner / whole
    measured = Measured(
        Quantity(round(temperature, 2), "temperature"),
        Quantity(round(winter.dew_point, 2), "temperature"),
        at_least=True,
    )
    facts: dict[str, Fact] = {"dew_point": Quantity(round(winter.dew_point, 2), "temperature")}
    facts["why"] = ("too little fresh air",) if case.airs.lacks_air else ()
    masonry = masonry_outside(part, cavity)
    if masonry == "solid":
        outcome = "warm masonry" if temperature >= winter.dew_point else "cold masonry"
        return Found(outcome, (part.name,), facts, measured)
    if temperature >= winter.dew_point:
        return Found("warm", (part.name,), facts, measured)
    facts |= _remedy(cavity, least_outer_resistance(inner, winter) - (whole - inner))
    closed = (diffusion_through(up_to_ventilation(cavity.outside)) or 0.0) > CLOSED
    outcome = "cold, closed" if closed else "cold, open"
    if masonry == "veneer":
        outcome += ", behind masonry"  # it stays, so no board goes outside of the sheathing
    return Found(outcome, (part.name,), facts, measured)


def _that_warm(case: Case, part: Part) -> Sequence[Layer]:
    """The layers that keep heat in: none outside of a gap that air washes behind board on brick."""
    return part.layers[: washed_from(case, part)]


def _remedy(cavity: Cavity, more: float) -> dict[str, Fact]:
    """Continuous insulation in all, as R and as board of the sort that is there."""
    boards = cavity.boards_outside
    conductivity = float(boards[-1].material.conductivity) if boards else USUAL_BOARD
    resistance = cavity.continuous_resistance + more
    thickness = math.ceil(resistance * conductivity / STEP - 1e-9) * STEP
    return {
        "needed": Quantity(thickness / conductivity, "resistance"),
        "board": Quantity(thickness, "thickness"),
    }


RULE = Rule(
    "sheathing in winter",
    {
        "warm": Severity.GOOD,
        "cold, open": Severity.WATCH,
        "cold, closed": Severity.MEND,
        "cold, open, behind masonry": Severity.WATCH,
        "cold, closed, behind masonry": Severity.MEND,
        "warm masonry": Severity.GOOD,
        "cold masonry": Severity.WATCH,
        "humidity not known": Severity.OPEN,
        "vapour not known": Severity.OPEN,
    },
    _judge,
)
