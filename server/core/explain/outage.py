"""How long a house stays bearable without power."""

from __future__ import annotations

import numpy as np

from server.core.evaluate import Result
from server.core.explain.base import Explanation, Formula, Input
from server.core.power_cut import Drift

_HOURS = Formula(
    "hours_of_drift",
    "t",
    "C/(3600*K)*ln((T_0 - T_q)/(T_x - T_q))",
    "h",
    "own derivation: one capacity left to itself; ISO 13790:2008 classes (memory)",
)


def hours(result: Result, drift: Drift | None, limit: float, *, winter: bool) -> Explanation | None:
    """Hours until a limit is passed; None where never, at once, or the day is unknown.

    Shapes: one house without draws; deg C and h. Range: any result. Raises: nothing.
    Source: `power_cut.power_cut`.
    """
    if drift is None:
        return None
    value = float(drift.hours_above(limit) if winter else drift.hours_below(limit))
    if not value or np.isinf(value):
        return None
    house = result.house
    capacity = house.heat_capacity * house.floor_area
    inputs = (
        Input("C", "heat_capacity", capacity, "J/K", ("thermal_mass",)),
        Input("K", "conductance_without_fans", capacity / drift.time_constant / 3600.0, "W/K"),
        Input("T_0", "heating_set_point" if winter else "cooling_set_point", drift.start, "°C"),
        Input("T_q", "comes_to_rest", drift.equilibrium, "°C"),
        Input("T_x", "limit", limit, "°C"),
    )
    return Explanation(_HOURS, value, inputs)
