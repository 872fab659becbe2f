"""The figures of a year: needs, fuel, money, carbon, differences, shares."""

from __future__ import annotations

from collections.abc import Sequence

from server.core.arrays import Array, Real
from server.core.evaluate import FuelUse, Result
from server.core.explain.base import SUM, Explanation, Formula, Input, Label
from server.core.parts import AIR, JUNCTIONS, part_of

DEFINITION = "definition"
VARIABLE_BASE = "ASHRAE Fundamentals, variable-base degree-day method"

_NEED = Formula("year_of_months", "Q", SUM, "kWh", DEFINITION)
_FUEL = Formula("fuel", "E", "Q/(η*d)", "kWh", "definition of seasonal and distribution efficiency")
_COOLING_FUEL = Formula(
    "cooling_fuel",
    "E",
    "(Q_s + Q_l)/(η*d)",
    "kWh",
    "definition of seasonal and distribution efficiency",
)
_CHANGE = "after - before"
_SHARE_OF = Formula("share_change", "s", "after/before - 1", "", DEFINITION)
_PART = Formula("sum_of_members", "Q", SUM, "kWh", DEFINITION)
_LOSS = Formula("heat_loss", "K", "K_out + K_g + K_air", "W/K", DEFINITION)
_MEAN_AIR = Formula(
    "mean_of_year",
    "K_air",
    "(31*(K_1 + K_3 + K_5 + K_7 + K_8 + K_10 + K_12) + 30*(K_4 + K_6 + K_9 + K_11) + 28*K_2)/365",
    "W/K",
    DEFINITION,
)
_ACH50 = Formula("air_changes_at_50_pa", "n_50", "Q_50*3600/V", "1/h", DEFINITION)


def heating_need(result: Result) -> Explanation:
    """The heating need, from its months.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition.
    """
    return _of_months(result.heating.load_kwh, result.heating_load_kwh)


def cooling_need(result: Result) -> Explanation:
    """The sensible cooling need, from its months.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition.
    """
    return _of_months(result.cooling.load_kwh, result.cooling_load_kwh)


def latent_need(result: Result) -> Explanation:
    """The latent cooling need, from its months.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition.
    """
    return _of_months(result.cooling.latent_kwh, result.latent_load_kwh)


def _of_months(monthly: Array, year: Real) -> Explanation:
    inputs = [
        Input(f"Q_{month + 1}", f"month_{month + 1}", float(load), "kWh")
        for month, load in enumerate(monthly)
    ]
    return Explanation(_NEED, year, tuple(inputs))


def fuel(result: Result, use: str, fuel_name: str) -> Explanation | None:
    """The fuel of one use; None where the house does not have it.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition of the efficiencies.
    """
    for each in result.fuels:
        if (each.use, each.fuel) == (use, fuel_name):
            return _fuel(result, each)
    return None


def _fuel(result: Result, use: FuelUse) -> Explanation:
    plant = result.house.heating if use.use == "heating" else result.house.cooling
    assert plant is not None
    inside = plant.ducts_in is not None and result.house.is_inside(plant.ducts_in)
    arrives = Input("d", "ducts_inside", 1.0, "") if inside else None
    shared = (
        Input("η", "seasonal_efficiency", plant.efficiency, "", (use.use, "efficiency")),
        arrives or Input("d", "distribution", plant.distribution, "", (use.use, "distribution")),
    )
    if use.use == "heating":
        need = Input("Q", "heating_need", result.heating_load_kwh, "kWh")
        return Explanation(_FUEL, use.energy_kwh, (need, *shared))
    sensible = Input("Q_s", "cooling_need", result.cooling_load_kwh, "kWh")
    latent = Input("Q_l", "latent_need", result.latent_load_kwh, "kWh")
    return Explanation(_COOLING_FUEL, use.energy_kwh, (sensible, latent, *shared))


def annual_cost(result: Result) -> Explanation | None:
    """The cost of all fuel; None where a price is unknown.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition.
    """
    prices = result.house.prices or {}
    return _of_fuels(result, result.annual_cost, "annual_cost", "USD", "p", "prices", prices)


def carbon(result: Result) -> Explanation | None:
    """The carbon dioxide of all fuel; None where a factor is unknown.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition.
    """
    factors = result.house.carbon or {}
    return _of_fuels(result, result.carbon, "annual_carbon", "kg", "f", "carbon", factors)


def _of_fuels(
    result: Result,
    value: Real | None,
    code: str,
    unit: str,
    symbol: str,
    key: str,
    factors: object,
) -> Explanation | None:
    if value is None:
        return None
    assert isinstance(factors, dict)
    terms, inputs = [], []
    for number, use in enumerate(result.fuels, start=1):
        terms.append(f"E_{number}*{symbol}_{number}")
        inputs += [
            Input(f"E_{number}", Label(f"{use.fuel}, {use.use}"), use.energy_kwh, "kWh"),
            Input(
                f"{symbol}_{number}",
                code + "_factor",
                factors[use.fuel],
                f"{unit}/kWh",
                (key, use.fuel),
            ),
        ]
    formula = Formula(code, "C" if unit == "USD" else "m", " + ".join(terms), unit, DEFINITION)
    return Explanation(formula, value, tuple(inputs))


def change(before: Real | None, after: Real | None, unit: str) -> Explanation | None:
    """What one result is more than another; None where either is unknown.

    Shapes: floats in one unit. Range: any. Raises: nothing.
    Source: definition.
    """
    if before is None or after is None:
        return None
    formula = Formula("change", "D", _CHANGE, unit, DEFINITION)
    return Explanation(formula, after - before, _before_and_after(before, after, unit))


def share_of_change(before: Real, after: Real) -> Explanation | None:
    """What one result is more than another, as a share; None where the other is nothing.

    Shapes: floats in kWh. Range: any. Raises: nothing.
    Source: definition.
    """
    if not before:
        return None
    return Explanation(_SHARE_OF, after / before - 1.0, _before_and_after(before, after, "kWh"))


def _before_and_after(before: Real, after: Real, unit: str) -> tuple[Input, ...]:
    return Input("before", "before", before, unit), Input("after", "after", after, unit)


def heat_of_part(result: Result, part: str) -> Explanation:
    """What a part of the house answers for, from its members.

    Shapes: one house without draws. Range: one of `parts.PARTS`. Raises: nothing.
    Source: `energy.heating_shares`.
    """
    members: list[tuple[str, Real]] = []
    if part == AIR:
        members = [("outdoor_air", result.air_heating_share_kwh)]
    elif part == JUNCTIONS:
        members = [(Label(each.name), each.heating_share_kwh) for each in result.junctions]
    else:
        members = [
            (Label(each.component.name), each.heating_share_kwh)
            for each in result.components
            if part_of(each.component) == part
        ]
    return sum_of(_PART, members, "kWh", whole=result.heating_load_kwh)


def sum_of(
    formula: Formula, members: Sequence[tuple[str, Real]], unit: str, whole: Real | None = None
) -> Explanation:
    """A figure that is the sum of named members, in one unit.

    Shapes: floats. Range: any. Raises: nothing.
    Source: definition.
    """
    inputs = [
        Input(f"{formula.symbol}_{number}", name, value, unit)
        for number, (name, value) in enumerate(members, start=1)
    ]
    total: Real = 0.0
    for _name, value in members:
        total = total + value
    share = None if whole is None or not whole else total / whole
    return Explanation(formula, total, tuple(inputs), share)


def heat_loss(result: Result) -> Explanation:
    """Conductance of the whole house: to outdoors, to the ground, by outdoor air.

    Shapes: one house without draws, W/K. Range: any result. Raises: nothing.
    Source: definition.
    """
    inputs = (
        Input("K_out", "to_outdoors", result.to_outdoors, "W/K"),
        Input("K_g", "to_ground", result.to_ground, "W/K"),
        Input("K_air", "air_conductance", result.air, "W/K"),
    )
    return Explanation(_LOSS, result.to_outdoors + result.to_ground + result.air, inputs)


def mean_air(result: Result) -> Explanation:
    """The mean conductance of outdoor air, from its months.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition.
    """
    inputs = [
        Input(f"K_{month + 1}", f"month_{month + 1}", float(value), "W/K")
        for month, value in enumerate(result.working.warm.air)
    ]
    return Explanation(_MEAN_AIR, result.air, tuple(inputs))


def air_changes_at_50_pa(result: Result) -> Explanation | None:
    """Air changes at 50 Pa; None where there is no blower-door test.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: definition.
    """
    value = result.air_changes_at_50_pa
    if value is None:
        return None
    flow = result.house.leakage.flow_at_50_pa  # type: ignore[union-attr]
    inputs = (
        Input("Q_50", "flow_at_50_pa", flow, "m³/s", ("air",)),
        Input("V", "inside_volume", result.house.inside_volume, "m³"),
    )
    return Explanation(_ACH50, value, inputs)
