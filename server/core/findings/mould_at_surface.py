"""Mould at the coldest inside surface of a component, and windows that sweat."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.assembly import FramedLayer
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.indoor_air import Air
from server.core.house import GROUND, INNER_KINDS, Kind
from server.core.moisture import needed_surface_factor, saturation_temperature
from server.core.temperature_line import Route, route_steps

SURFACE_FILM = 0.25  # m2 K/W, of opaque surfaces behind furniture, ISO 13788:2012 4.4 (memory)
GLASS_FILM = 0.13  # m2 K/W, of windows and doors, ISO 13788:2012 4.4 (memory)
LEAST_DIFFERENCE = 2.0  # K: milder months say nothing of a surface


def _judge(case: Case) -> Iterator[Found]:
    for part in case.parts:
        if part.kind in INNER_KINDS or part.component.from_space not in case.inside:
            continue
        if part.component.to_space in case.inside:
            continue
        indoors = case.airs.indoors
        outside = _outside(case, part)
        if indoors is None or outside is None:
            yield Found("humidity not known", (part.name,))
            continue
        critical = _critical(indoors, outside, opening=part.is_opening)
        if critical is None:
            yield Found("warm", (part.name,))
        else:
            yield _judged(case, part, *critical)


def _outside(case: Case, part: Part) -> tuple[float, ...] | None:
    """Temperature on the other side, month by month."""
    if part.component.to_space == GROUND:
        return tuple(float(each) for each in case.after.ground_temperature)
    air = case.airs.of(part.component.to_space)
    return None if air is None else air.temperature


def _critical(
    indoors: Air, outside: tuple[float, ...], *, opening: bool
) -> tuple[float, int] | None:
    """The largest factor that any month needs, and the month; an opening may be just not wet."""
    needed = []
    for month in range(12):
        inside = indoors.temperature[month]
        if inside - outside[month] < LEAST_DIFFERENCE:
            continue
        if opening:
            dew_point = saturation_temperature(indoors.pressure[month])
            factor = (dew_point - outside[month]) / (inside - outside[month])
        else:
            factor = needed_surface_factor(inside, indoors.pressure[month], outside[month])
        needed.append((factor, month))
    return max(needed) if needed else None


def surface_factor(case: Case, part: Part) -> float:
    """f_Rsi of the coldest plain part of a component: through its framing or its fill.

    Shapes: one component. Range: corners, screws and junctions are not in it. Raises: nothing.
    Source: ISO 13788:2012 5.2 (memory): 1 - R_si U of that path.
    """
    if part.is_opening:
        return 1.0 - GLASS_FILM * float(case.after.components[part.index].u_value)
    if not part.layers or part.component.to_space == GROUND:
        return 1.0 - SURFACE_FILM * float(case.after.components[part.index].u_value)
    framed = any(isinstance(each, FramedLayer) and float(each.fraction) for each in part.layers)
    routes = Route if framed else (Route.FILL,)
    return min(_route_factor(case, part, route) for route in routes)


def _route_factor(case: Case, part: Part, route: Route) -> float:
    if not part.layers or part.component.to_space == GROUND:
        return 0.0
    steps = route_steps(
        part.layers, route, part.component.heat_flow, SURFACE_FILM, case.films(part)[1]
    )
    return 1.0 - SURFACE_FILM / sum(float(step.resistance) for step in steps)


def _judged(case: Case, part: Part, needed: float, month: int) -> Found:
    factor = surface_factor(case, part)
    if factor >= needed:
        return Found("warm", (part.name,))
    measured = Measured(
        Quantity(round(factor, 3), "factor"), Quantity(round(needed, 3), "factor"), True
    )
    facts: dict[str, Fact] = {"month": Quantity(month, "month")}
    if part.is_opening:
        sweats = "door sweats" if part.kind is Kind.DOOR else "window sweats"
        return Found(sweats, (part.name,), facts, measured)
    facts["resistance"] = Quantity(round(SURFACE_FILM / (1.0 - needed), 3), "resistance")
    if _route_factor(case, part, Route.FILL) >= needed:
        return Found("cold over the framing", (part.name,), facts, measured)
    below = part.kind in (Kind.BASEMENT_WALL, Kind.BASEMENT_FLOOR, Kind.SLAB)
    return Found("cold, below grade" if below else "cold", (part.name,), facts, measured)


RULE = Rule(
    "mould at surface",
    {
        "warm": Severity.GOOD,
        "cold": Severity.MEND,
        "cold over the framing": Severity.MEND,
        "cold, below grade": Severity.WATCH,
        "window sweats": Severity.WATCH,
        "door sweats": Severity.WATCH,
        "humidity not known": Severity.OPEN,
    },
    _judge,
)
