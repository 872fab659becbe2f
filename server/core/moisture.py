"""Water vapour: saturation, dew point, mould at a surface, condensation inside an assembly.

One assembly at a time: what is computed are events in a year, which do not broadcast.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from server.core.climate import MONTH_DAYS
from server.core.errors import require_within

VAPOUR_PERMEABILITY = 2e-10  # kg/(m s Pa) of still air, ISO 13788:2012 (memory)
THICKEST_STEP = 0.25  # m2 K/W: layers of more are cut, so that the pressure is followed inside them
MOULD_HUMIDITY = 0.8  # at the surface, ISO 13788 5.2 (memory)
SECONDS_A_DAY = 86400.0
LEAST_WATER = 1e-9  # kg/m2: less is dry

Verdict = Literal["dry", "dries", "stays wet"]


def saturation_pressure(temperature: float) -> float:
    """Vapour pressure of saturated air.

    Shapes: a float, deg C; result Pa.
    Range: -40 to 60 deg C.
    Raises: nothing.
    Source: ISO 13788:2012 Annex E (memory).
    """
    if temperature >= 0.0:
        return 610.5 * math.exp(17.269 * temperature / (237.3 + temperature))
    return 610.5 * math.exp(21.875 * temperature / (265.5 + temperature))


def saturation_temperature(pressure: float) -> float:
    """Temperature at which a vapour pressure saturates the air: its dew point.

    Shapes: a float, Pa; result deg C.
    Range: above zero.
    Raises: ImpossibleValue.
    Source: ISO 13788:2012 Annex E (memory), the inverse.
    """
    require_within("pressure", pressure, 0.0, 1e5, above=True)
    logarithm = math.log(pressure / 610.5)
    if logarithm >= 0.0:
        return 237.3 * logarithm / (17.269 - logarithm)
    return 265.5 * logarithm / (21.875 - logarithm)


def dew_point(temperature: float, relative_humidity: float) -> float:
    """Dew point of air.

    Shapes: floats, deg C and 0 to 1; result deg C.
    Range: a humidity above zero.
    Raises: ImpossibleValue.
    Source: `saturation_temperature`.
    """
    return saturation_temperature(relative_humidity * saturation_pressure(temperature))


def needed_surface_factor(inside: float, pressure: float, outside: float) -> float:
    """f_Rsi that keeps the humidity at an inside surface at or below 80 %.

    f_Rsi = (T_si - T_e)/(T_i - T_e), with p_sat(T_si) = p_i/0.8.
    Shapes: floats, deg C and Pa; result dimensionless.
    Range: warmer inside than outside; zero or less where any surface will do.
    Raises: ImpossibleValue.
    Source: ISO 13788:2012 5.2 and 5.3 (memory).
    """
    require_within("inside", inside - outside, 0.0, 200.0, above=True)
    needed = saturation_temperature(pressure / MOULD_HUMIDITY)
    return (needed - outside) / (inside - outside)


@dataclass(frozen=True, slots=True)
class Climate13788:
    """Twelve months: outdoor deg C and relative humidity, indoor deg C and vapour pressure, Pa."""

    outdoor_temperature: Sequence[float]
    outdoor_humidity: Sequence[float]
    indoor_temperature: Sequence[float]
    indoor_pressure: Sequence[float]

    def outdoor_pressure(self, month: int) -> float:
        """Vapour pressure outdoors in a month, Pa.

        Shapes: one month, 0 to 11. Range: any. Raises: nothing.
        Source: `saturation_pressure`.
        """
        return self.outdoor_humidity[month] * saturation_pressure(self.outdoor_temperature[month])


@dataclass(frozen=True, slots=True)
class VapourLayer:
    """One layer: resistance m2 K/W; s_d, the still air as resistant to vapour, m, above zero.

    Raises: ImpossibleValue.
    """

    resistance: float
    diffusion_thickness: float

    def __post_init__(self) -> None:
        require_within("resistance", self.resistance, 0.0, 1000.0)
        require_within("diffusion_thickness", self.diffusion_thickness, 0.0, 1e6, above=True)


@dataclass(frozen=True, slots=True)
class Plane:
    """Where water gathers: after which layer, counted from inside, and how far into the next."""

    layer: int
    depth: float


@dataclass(frozen=True, slots=True)
class Course:
    """Temperature, saturation and vapour pressure at every node, from inside to outside.

    resistance and diffusion: how far in each node lies, m2 K/W and m.
    """

    resistance: tuple[float, ...]
    diffusion: tuple[float, ...]
    temperature: tuple[float, ...]
    saturation: tuple[float, ...]
    pressure: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class InterstitialYear:
    """A year from the first month that wets; kg/m2.

    changes: of all planes together in each month. water: at the end of each month, plane by plane.
    peak: the most at once. remaining: at the end, 0 where it dries. worst_month: 0 to 11, which
    condenses most, or where nothing does comes nearest to it.
    """

    verdict: Verdict
    first_month: int
    planes: tuple[Plane, ...]
    changes: tuple[float, ...]
    water: tuple[tuple[float, ...], ...]
    peak: float
    remaining: float
    worst_month: int


@dataclass(frozen=True, slots=True)
class _Nodes:
    """Nodes between cut layers: films carry heat, not vapour."""

    planes: tuple[Plane, ...]
    resistance: tuple[float, ...]
    diffusion: tuple[float, ...]
    total_resistance: float

    def temperatures(self, inside: float, outside: float) -> list[float]:
        fall = (inside - outside) / self.total_resistance
        return [inside - fall * depth for depth in self.resistance]


@dataclass(frozen=True, slots=True)
class _Month:
    """One month at the nodes: deg C and Pa; ends: the pressures indoors and outdoors."""

    temperatures: list[float]
    saturation: list[float]
    ends: tuple[float, float]


def interstitial_year(
    layers: Sequence[VapourLayer],
    climate: Climate13788,
    *,
    inside_film: float,
    outside_film: float,
) -> InterstitialYear:
    """Condensation and evaporation inside an assembly, month by month, at any number of planes.

    Heat and vapour are steady within a month. The pressure is the greatest convex course from
    inside to outside that stays at or below saturation and, where water lies, at it; what flows
    into a plane more than out of it condenses there. A plane that dries within a month is let go
    on the day it does. The year starts with the first month that wets after one that does not.
    Shapes: layers inside to outside; twelve months; see InterstitialYear.
    Range: at least one layer that resists vapour; a well-ventilated layer ends the assembly.
    Raises: nothing.
    Source: ISO 13788:2012 clause 6 (method from memory); still-air permeability 2e-10 kg/(m s Pa).
    """
    nodes = _nodes(layers, inside_film, outside_film)
    months = [_month(nodes, climate, month) for month in range(12)]
    margins = [_margin(nodes, month) for month in months]
    order = _from_first_wet(margins)
    if order is None:
        nearest = margins.index(min(margins))
        return InterstitialYear("dry", 0, (), (0.0,) * 12, ((),) * 12, 0.0, 0.0, nearest)
    water: dict[int, float] = {}
    ends, peak = [], 0.0
    for month in order:
        water = _after_month(nodes, months[month], float(MONTH_DAYS[month]), water)
        ends.append(dict(water))
        peak = max(peak, sum(water.values()))
    wetted = sorted({node for each in ends for node in each})
    totals = [0.0, *(sum(each.values()) for each in ends)]
    changes = tuple(after - before for before, after in itertools.pairwise(totals))
    return InterstitialYear(
        verdict="stays wet" if totals[-1] > LEAST_WATER else "dries",
        first_month=order[0],
        planes=tuple(nodes.planes[node] for node in wetted),
        changes=changes,
        water=tuple(tuple(each.get(node, 0.0) for node in wetted) for each in ends),
        peak=peak,
        remaining=totals[-1] if totals[-1] > LEAST_WATER else 0.0,
        worst_month=order[changes.index(max(changes))],
    )


def course_of_month(
    layers: Sequence[VapourLayer],
    climate: Climate13788,
    month: int,
    *,
    inside_film: float,
    outside_film: float,
) -> Course:
    """Temperature and pressures through an assembly in a month, where nothing is wet yet.

    Shapes: layers inside to outside, one month 0 to 11; see Course.
    Range: as `interstitial_year`.
    Raises: nothing.
    Source: ISO 13788:2012 clause 6 (memory).
    """
    nodes = _nodes(layers, inside_film, outside_film)
    here = _month(nodes, climate, month)
    temperatures, saturation, ends = here.temperatures, here.saturation, here.ends
    held = _held(nodes.diffusion, saturation, ends, ())
    pressures = []
    for index, depth in enumerate(nodes.diffusion):
        before = max(node for node in held if node <= index)
        after = min(node for node in held if node >= index)
        low, high = _pressure(before, saturation, ends), _pressure(after, saturation, ends)
        width = nodes.diffusion[after] - nodes.diffusion[before]
        share = (depth - nodes.diffusion[before]) / width if width else 0.0
        pressures.append(low + share * (high - low))
    return Course(
        nodes.resistance,
        nodes.diffusion,
        tuple(temperatures),
        tuple(saturation),
        tuple(pressures),
    )


def _nodes(layers: Sequence[VapourLayer], inside_film: float, outside_film: float) -> _Nodes:
    planes, resistance, diffusion = [Plane(0, 0.0)], [inside_film], [0.0]
    for number, layer in enumerate(layers):
        cuts = max(1, math.ceil(layer.resistance / THICKEST_STEP - 1e-9))
        for cut in range(1, cuts + 1):
            resistance.append(resistance[-1] + layer.resistance / cuts)
            diffusion.append(diffusion[-1] + layer.diffusion_thickness / cuts)
            inner = cut < cuts
            planes.append(Plane(number, cut / cuts) if inner else Plane(number + 1, 0.0))
    total = resistance[-1] + outside_film
    return _Nodes(tuple(planes), tuple(resistance), tuple(diffusion), total)


def _month(nodes: _Nodes, climate: Climate13788, month: int) -> _Month:
    inside, outside = climate.indoor_temperature[month], climate.outdoor_temperature[month]
    temperatures = nodes.temperatures(inside, outside)
    ends = climate.indoor_pressure[month], climate.outdoor_pressure(month)
    return _Month(temperatures, [saturation_pressure(each) for each in temperatures], ends)


def _margin(nodes: _Nodes, month: _Month) -> float:
    """How far the straight course of the pressure stays below saturation at its nearest, Pa."""
    first, last = month.ends
    slope = (last - first) / nodes.diffusion[-1]
    inner = zip(nodes.diffusion[1:-1], month.saturation[1:-1], strict=True)
    return min((held - first - slope * depth for depth, held in inner), default=math.inf)


def _from_first_wet(margins: Sequence[float]) -> list[int] | None:
    """The months from the first that wets a dry assembly; None where none does."""
    wets = [margin < 0.0 for margin in margins]
    if not any(wets):
        return None
    starts = [month for month in range(12) if wets[month] and not wets[month - 1]]
    first = starts[-1] if starts else 9  # wet all year: from October, as heating begins
    return [(first + each) % 12 for each in range(12)]


def _after_month(
    nodes: _Nodes, month: _Month, days: float, water: dict[int, float]
) -> dict[int, float]:
    """What lies at every plane at the month's end; a plane that dries is let go that day."""
    left = days * SECONDS_A_DAY
    now = dict(water)
    while left > 0.0:
        rates = _rates(nodes, month, tuple(now))
        drying = {node: now[node] / -rate for node, rate in rates.items() if rate < 0.0}
        step = min([left, *drying.values()])
        for node, rate in rates.items():
            now[node] = now.get(node, 0.0) + rate * step
        now = {node: each for node, each in now.items() if each > LEAST_WATER}
        left -= step
        if not rates:
            break
    return now


def _rates(nodes: _Nodes, month: _Month, wet: tuple[int, ...]) -> dict[int, float]:
    """Condensation at every plane that is or gets wet, kg/(m2 s); evaporation is negative."""
    saturation, ends = month.saturation, month.ends
    held = _held(nodes.diffusion, saturation, ends, wet)
    rates = {}
    for before, here, after in zip(held, held[1:], held[2:], strict=False):
        inward = _flow(nodes, saturation, ends, before, here)
        outward = _flow(nodes, saturation, ends, here, after)
        rates[here] = inward - outward
    return rates


def _flow(
    nodes: _Nodes,
    saturation: Sequence[float],
    ends: tuple[float, float],
    first: int,
    second: int,
) -> float:
    width = nodes.diffusion[second] - nodes.diffusion[first]
    fall = _pressure(first, saturation, ends) - _pressure(second, saturation, ends)
    return VAPOUR_PERMEABILITY * fall / width


def _pressure(node: int, saturation: Sequence[float], ends: tuple[float, float]) -> float:
    if node == 0:
        return ends[0]
    return ends[1] if node == len(saturation) - 1 else saturation[node]


def _held(
    diffusion: Sequence[float],
    saturation: Sequence[float],
    ends: tuple[float, float],
    wet: Sequence[int],
) -> list[int]:
    """Nodes that the pressure's course touches: both ends, wet planes, and between them the
    corners of the greatest convex course at or below saturation."""
    last = len(diffusion) - 1
    fixed = [0, *sorted(node for node in wet if 0 < node < last), last]
    held = [0]
    for start, end in itertools.pairwise(fixed):
        held += _corners(diffusion, saturation, ends, start, end)[1:]
    return held


def _corners(
    diffusion: Sequence[float],
    saturation: Sequence[float],
    ends: tuple[float, float],
    start: int,
    end: int,
) -> list[int]:
    """The lower convex hull of saturation between two held nodes, by their place."""
    hull: list[int] = []
    for node in range(start, end + 1):
        height = _pressure(node, saturation, ends)
        while len(hull) > 1:
            first, second = hull[-2], hull[-1]
            low = _pressure(first, saturation, ends)
            share = (diffusion[second] - diffusion[first]) / (diffusion[node] - diffusion[first])
            if _pressure(second, saturation, ends) < low + share * (height - low):
                break
            hull.pop()
        hull.append(node)
    return hull
