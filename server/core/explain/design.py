"""The loads of the design days, part by part."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from server.core import air, energy
from server.core.arrays import Real
from server.core.design_load import (
    SWING_ON_GLASS,
    DesignCooling,
    cooling_load,
    fenestration_factor,
    glass_irradiance,
    heating_load,
    outdoor_factors,
)
from server.core.evaluate import Result
from server.core.explain.base import SUM, Column, Explanation, Formula, Input, Label
from server.core.explain.parts import PartTable
from server.core.explain.year import DEFINITION

STEADY = "ASHRAE Fundamentals, residential heating load: steady, without gains (memory)"
FACTORS = "ASHRAE Fundamentals, residential cooling load factors (memory)"

_HEATING = Formula("design_sum", "q", SUM, "W", STEADY)
_COOLING = Formula("design_sum", "q", SUM, "W", FACTORS)
_HEATING_PLANT = Formula("design_plant", "q_e", "q/d", "W", DEFINITION)
_COOLING_PLANT = Formula("design_cooling_plant", "q_e", "q_s/d + q_l", "W", DEFINITION)
_LATENT = Formula(
    "design_latent",
    "q_l",
    "ρ*2.5e6*V_o*max(w - w_i, 0) + 20 + 0.22*A + 12*(B + 1)",
    "W",
    FACTORS,
)
_LOSS = Formula("design_loss", "q", "K*Δ", "W", STEADY)
_OPAQUE = Formula("load_factor", "q", "U*A*(OF_t*Δ + OF_b + OF_r*DR)", "W", FACTORS)
_GLASS = Formula("glass_load", "q", f"A*(U*(Δ - {SWING_ON_GLASS:g}*DR) + I*SHGC*FF)", "W", FACTORS)


def heating(result: Result) -> Explanation | None:
    """The heat lost on the design night, by what loses it; None where the night is unknown.

    Shapes: one house without draws, W. Range: any result. Raises: nothing.
    Source: `design_load.heating_load`.
    """
    load = heating_load(result)
    if load is None:
        return None
    members = [*_named(result, load.parts), *_junctions(result, load.junctions)]
    return _sum(_HEATING, [*members, ("outdoor_air", load.air)], load.total)


def heating_plant(result: Result) -> Explanation | None:
    """What the heating equipment must bring on that night; None where it is unknown.

    Shapes: one house without draws, W. Range: any result. Raises: nothing.
    Source: definition.
    """
    load = heating_load(result)
    if load is None:
        return None
    delivered = load.total / load.on_equipment if load.on_equipment else 1.0
    inputs = (
        Input("q", "design_heat", load.total, "W"),
        Input("d", "distribution", delivered, ""),
    )
    return Explanation(_HEATING_PLANT, load.on_equipment, inputs)


def cooling(result: Result) -> Explanation | None:
    """The heat to remove on the design day; None where the day is unknown or nothing is removed.

    Shapes: one house without draws, W. Range: any result. Raises: nothing.
    Source: `design_load.cooling_load`.
    """
    load = cooling_load(result)
    if load is None or not load.sensible:
        return None
    members = [
        *_named(result, load.parts),
        ("outdoor_air", load.air),
        ("people_inside", load.people),
    ]
    return _sum(_COOLING, members, load.sensible)


def latent(result: Result) -> Explanation | None:
    """The moisture to remove on the design day; None where the day or humidity is unknown.

    Shapes: one house without draws, W. Range: any result. Raises: nothing.
    Source: `design_load.cooling_load`.
    """
    load, house = cooling_load(result), result.house
    if load is None or house.climate.humidity_ratio is None:
        return None
    density = air.air_density(house.climate.elevation)
    wettest = float(np.max(house.climate.humidity_ratio))
    indoor = 20.0 + 0.22 * house.floor_area + 12.0 * (house.bedrooms + 1.0)
    excess = max(wettest - energy.INDOOR_HUMIDITY, 0.0)
    per_flow = density * energy.EVAPORATION_HEAT * excess
    flow = (load.latent - indoor) / per_flow if excess else 0.0
    inputs = (
        Input("ρ", "air_density", density, "kg/m³"),
        Input("V_o", "outdoor_flow", flow, "m³/s"),
        Input("w", "wettest_month", wettest, "kg/kg"),
        Input("w_i", "indoor_humidity", energy.INDOOR_HUMIDITY, "kg/kg"),
        Input("A", "floor_area", house.floor_area, "m²", ("floor_area",)),
        Input("B", "bedrooms", house.bedrooms, "", ("bedrooms",)),
    )
    return Explanation(_LATENT, load.latent, inputs)


def cooling_plant(result: Result) -> Explanation | None:
    """What the cooling equipment must bring on that day; None where it is unknown.

    Shapes: one house without draws, W. Range: any result. Raises: nothing.
    Source: definition.
    """
    load = cooling_load(result)
    if load is None:
        return None
    brought = load.on_equipment - load.latent
    inputs = (
        Input("q_s", "design_sensible", load.sensible, "W"),
        Input("d", "distribution", load.sensible / brought if brought else 1.0, ""),
        Input("q_l", "design_latent", load.latent, "W"),
    )
    return Explanation(_COOLING_PLANT, load.on_equipment, inputs)


def design_tables(result: Result) -> tuple[PartTable, ...]:
    """Every part on the design night, and opaque parts and glass on the design day.

    Shapes: one house without draws; W. Range: any result. Raises: nothing.
    Source: `design_load`.
    """
    tables = []
    warm, cool = heating_load(result), cooling_load(result)
    if warm is not None:
        names = [part.name for part in result.house.components]
        names += [junction.name for junction in result.house.junctions]
        loads = [*warm.parts, *warm.junctions]
        edges = [edge.conductance for edge in result.working.edges[: len(loads)]]
        rows = [n for n, load in enumerate(loads) if load]
        tables.append(
            PartTable(
                "design_night",
                tuple(names[n] for n in rows),
                (
                    Column("K", "conductance", "W/K", tuple(edges[n] for n in rows)),
                    Column("Δ", "difference", "K", tuple(loads[n] / edges[n] for n in rows)),
                    Column("q", "design_heat", "W", tuple(loads[n] for n in rows), _LOSS),
                ),
            )
        )
    if cool is not None:
        tables += _cooling_tables(result, cool)
    return tuple(tables)


def _cooling_tables(result: Result, cool: DesignCooling) -> list[PartTable]:
    house = result.house
    day = (
        Input("Δ", "over_set_point", cool.difference, "K"),
        Input("DR", "daily_range", cool.daily_range, "K"),
    )
    opaque = [
        (n, factors)
        for n, part in enumerate(house.components)
        if not part.lets_sun_in and (factors := outdoor_factors(house, part)) is not None
    ]
    glass = [n for n, part in enumerate(house.components) if part.lets_sun_in and cool.parts[n]]
    tables = []
    if opaque:
        rows = [n for n, _factors in opaque]
        tables.append(
            PartTable(
                "design_opaque",
                tuple(house.components[n].name for n in rows),
                (
                    *_area_and_u(result, rows),
                    Column("OF_t", "factor_time", "", tuple(f.time for _n, f in opaque)),
                    Column("OF_b", "factor_base", "K", tuple(f.base for _n, f in opaque)),
                    Column("OF_r", "factor_range", "", tuple(f.range for _n, f in opaque)),
                    Column("q", "load", "W", tuple(cool.parts[n] for n in rows), _OPAQUE, day),
                ),
            )
        )
    if glass:
        parts = [house.components[n] for n in glass]
        azimuths = [None if part.azimuth is None else float(part.azimuth) for part in parts]
        exposure = [
            fenestration_factor(part.plane_tilt, azimuth)
            for part, azimuth in zip(parts, azimuths, strict=True)
        ]
        outdoors = [part.to_space == "outdoors" and part.shgc is not None for part in parts]
        sun = [
            glass_irradiance(house, part) if faces else 0.0
            for part, faces in zip(parts, outdoors, strict=True)
        ]
        tables.append(
            PartTable(
                "design_glass",
                tuple(part.name for part in parts),
                (
                    *_area_and_u(result, glass),
                    Column("I", "peak_sun", "W/m²", tuple(sun)),
                    Column("SHGC", "shgc", "", tuple(part.shgc or 0.0 for part in parts)),
                    Column("FF", "fenestration_factor", "", tuple(exposure)),
                    Column("q", "load", "W", tuple(cool.parts[n] for n in glass), _GLASS, day),
                ),
            )
        )
    return tables


def _area_and_u(result: Result, rows: Sequence[int]) -> tuple[Column, Column]:
    parts = [result.components[n] for n in rows]
    return (
        Column("A", "area", "m²", tuple(each.component.area for each in parts)),
        Column("U", "u_value", "W/(m²·K)", tuple(each.u_value for each in parts)),
    )


def _named(result: Result, loads: Sequence[Real]) -> list[tuple[str, Real]]:
    return [
        (Label(part.name), load)
        for part, load in zip(result.house.components, loads, strict=True)
        if load
    ]


def _junctions(result: Result, loads: Sequence[Real]) -> list[tuple[str, Real]]:
    return [
        (Label(junction.name), load)
        for junction, load in zip(result.house.junctions, loads, strict=True)
        if load
    ]


def _sum(formula: Formula, members: Sequence[tuple[str, Real]], total: Real) -> Explanation:
    inputs = tuple(
        Input(f"q_{number}", name, load, "W") for number, (name, load) in enumerate(members, 1)
    )
    return Explanation(formula, total, inputs)
