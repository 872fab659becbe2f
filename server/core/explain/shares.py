"""How the heating need is shared out among the ways heat leaves, month by month."""

from __future__ import annotations

import numpy as np

from server.core.arrays import Array
from server.core.evaluate import OUTDOOR_AIR, Result
from server.core.explain.base import SUM, Column, Explanation, Formula, Input, Label
from server.core.explain.parts import SHARES
from server.core.house import GROUND, OUTDOORS

_NAMES = {OUTDOORS: "outdoors", GROUND: "ground", OUTDOOR_AIR: "outdoor_air"}


def share_columns(result: Result) -> tuple[Column, ...]:
    """Every month's need for each W/K of every way out.

    A month's need is divided by its gross loss G, the sum of conductance times difference over
    the ways that lose; a way's heat for each W/K is its difference times that quotient.
    Shapes: one house without draws; K, W, kWh/(W/K). Range: any result. Raises: nothing.
    Source: `energy.heating_shares`.
    """
    ways = result.working.ways
    columns = [_twelve("Q_h", "heating_need", "kWh", result.heating.load_kwh)]
    terms, sums, inputs = [], [], []
    for number, (name, way) in enumerate(ways.items(), start=1):
        held = np.maximum(way.difference, 0.0)
        columns.append(_twelve(f"Δ_{number}", _named(name), "K", held))
        if name == OUTDOOR_AIR:
            columns.append(_twelve(f"k_{number}", "air_conductance", "W/K", way.conductance))
        else:
            value = float(np.ravel(way.conductance)[0])
            inputs.append(Input(f"k_{number}", _named(name), value, "W/K"))
        terms.append(f"k_{number}*Δ_{number}")
        sums.append(f"k_{number}")
    gross = sum((way.conductance * np.maximum(way.difference, 0.0) for way in ways.values()), 0.0)
    loss = Formula("gross_loss", "G", " + ".join(terms), "W", SHARES)
    every = Formula("all_conductance", "k", " + ".join(sums), "W/K", SHARES)
    whole = sum((way.conductance for way in ways.values()), 0.0)
    columns.append(_twelve("G", "gross_loss", "W", np.asarray(gross), loss, tuple(inputs)))
    columns.append(_twelve("k", "all_conductance", "W/K", np.asarray(whole), every, tuple(inputs)))
    for number, (name, way) in enumerate(ways.items(), start=1):
        formula = Formula(
            "heat_per_conductance",
            f"e_{number}",
            f"Q_h*Δ_{number}/G if G > 0 else Q_h/k",
            "kWh/(W/K)",
            SHARES,
        )
        values = _each_watt(result.heating.load_kwh, way.difference, np.asarray(gross), whole)
        columns.append(_twelve(f"e_{number}", _named(name), "kWh/(W/K)", values, formula))
    return tuple(columns)


def heat_of_ways(result: Result) -> dict[str, Explanation]:
    """The year's need for each W/K of every way out, from its months.

    Shapes: one house without draws, kWh/(W/K). Range: any result. Raises: nothing.
    Source: `energy.heating_shares`.
    """
    columns = {column.symbol: column for column in share_columns(result)}
    found = {}
    for number, name in enumerate(result.working.ways, start=1):
        inputs = tuple(
            Input(f"e_{month}", f"month_{month}", value, "kWh/(W/K)")
            for month, value in enumerate(columns[f"e_{number}"].values, start=1)
        )
        formula = Formula("year_of_months", "e", SUM, "kWh/(W/K)", SHARES)
        value = result.working.shares[name].per_conductance
        found[_named(name)] = Explanation(formula, value, inputs)
    return found


def _named(way: str) -> str:
    return _NAMES.get(way) or Label(way)


def _each_watt(load: Array, difference: Array, gross: Array, whole: Array | float) -> Array:
    lost = gross > 0.0
    result: Array = (
        load / np.where(lost, gross, whole) * np.where(lost, np.maximum(difference, 0.0), 1.0)
    )
    return result


def _twelve(
    symbol: str,
    name: str,
    unit: str,
    values: Array,
    formula: Formula | None = None,
    inputs: tuple[Input, ...] = (),
) -> Column:
    twelve = np.broadcast_to(values, (12,))
    return Column(symbol, name, unit, tuple(float(each) for each in twelve), formula, inputs)
