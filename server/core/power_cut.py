"""How a house drifts when heating, cooling and fans stop: one capacity, left to itself."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from server.core.air import NO_FANS, air_flows, air_heat_capacity
from server.core.arrays import Real
from server.core.evaluate import Result
from server.core.house import House

JANUARY, JULY = 0, 6
PERSON = 70.0  # W of warmth of somebody at rest, common practice
COOL_LIMITS = (12.7777778, 4.4444444)  # deg C: 55 and 40 degF, uncomfortable and pipes at risk
WARM_LIMITS = (29.4444444, 32.2222222)  # deg C: 85 and 90 degF


@dataclass(frozen=True, slots=True, eq=False)
class Drift:
    """A temperature that goes from a start towards an equilibrium, deg C; time constant h.

    T(t) = T_eq + (T_0 - T_eq) exp(-t/tau). The air of a real house moves faster at first, since it
    leaves its walls behind.
    """

    start: Real
    equilibrium: Real
    time_constant: Real

    def temperature(self, hours: Real) -> Real:
        """After some hours, deg C.

        Shapes: any that broadcast. Range: zero and up. Raises: nothing.
        Source: the solution of C dT/dt = -K (T - T_eq).
        """
        left = np.exp(-np.asarray(hours) / self.time_constant)
        return _plain(self.equilibrium + (self.start - self.equilibrium) * left)

    def hours_above(self, limit: Real) -> Real:
        """Hours until it falls to a limit: 0 where it is not above, infinite where it stays so.

        Shapes: any that broadcast. Range: any. Raises: nothing.
        Source: the inverse of `temperature`: tau ln((T_0 - T_eq)/(T - T_eq)).
        """
        return self._hours(limit, 1.0)

    def hours_below(self, limit: Real) -> Real:
        """Hours until it rises to a limit: 0 where it is not below, infinite where it stays so.

        Shapes: any that broadcast. Range: any. Raises: nothing.
        Source: as `hours_above`.
        """
        return self._hours(limit, -1.0)

    def _hours(self, limit: Real, side: float) -> Real:
        start = side * (np.asarray(self.start) - limit)
        rest = side * (np.asarray(self.equilibrium) - limit)
        passes = (start > 0.0) & (rest < 0.0)
        gap = np.where(passes, start - rest, 1.0)
        left = np.where(passes, -rest, 1.0)
        hours = np.where(passes, np.log(gap / left) * self.time_constant, np.inf)
        return _plain(np.where(start <= 0.0, 0.0, hours))


@dataclass(frozen=True, slots=True, eq=False)
class PowerCut:
    """Winter and summer, in the mean month and on the design day; None where that is unknown."""

    winter_mean: Drift
    winter_design: Drift | None
    summer_mean: Drift
    summer_design: Drift | None


def power_cut(result: Result) -> PowerCut:
    """How the house drifts in January and in July.

    Fans, heating, cooling and appliances are off, windows shut; people stay, 70 W each, as many as
    bedrooms and one more. The mean month has its sun. The design winter day has none; the design
    summer day has July's mean sun, and its mean temperature is half the daily range below the
    design temperature. Leaks are those at the set point, which is the worst of the course.
    Shapes: the result's. Range: any result. Raises: nothing.
    Source: own derivation from the steady balance and one capacity (ISO 13790:2008 7.2 and 12.3.1,
    classes from memory).
    """
    house, climate = result.house, result.house.climate
    gains = result.working.sources
    people = PERSON * (house.bedrooms + 1.0)
    free = gains.sun - gains.sky
    january = climate.mean_temperature[..., JANUARY]
    july = climate.mean_temperature[..., JULY]
    cold, hot = climate.heating_design_temperature, climate.cooling_design_temperature
    daily = climate.cooling_daily_range
    warm, cool = house.heating_set_point, house.cooling_set_point
    sunny, summer = people + free[..., JANUARY], people + free[..., JULY]
    return PowerCut(
        winter_mean=_drift(result, JANUARY, warm, january, sunny),
        winter_design=None if cold is None else _drift(result, JANUARY, warm, cold, people),
        summer_mean=_drift(result, JULY, cool, july, summer),
        summer_design=None
        if hot is None or daily is None
        else _drift(result, JULY, cool, hot - daily / 2.0, summer),
    )


def _drift(result: Result, month: int, start: Real, outdoors: Real, gains: Real) -> Drift:
    house = result.house
    leaks = _leaks(house, month, start, outdoors)
    to_outdoors = result.to_outdoors + leaks
    whole = to_outdoors + result.to_ground
    ground = result.ground_temperature[..., month]
    equilibrium = (to_outdoors * outdoors + result.to_ground * ground + gains) / whole
    hours = house.heat_capacity * house.floor_area / whole / 3600.0
    return Drift(start, _plain(equilibrium), _plain(hours))


def _leaks(house: House, month: int, inside: Real, outdoors: Real) -> Real:
    """Conductance of infiltration alone, W/K."""
    flows = air_flows(
        house.leakage,
        NO_FANS,
        house.storeys,
        inside,
        np.asarray(outdoors, dtype=float)[..., np.newaxis],
        house.climate.wind_speed[..., month : month + 1],
    )
    return air_heat_capacity(house.climate.elevation) * flows.outdoor[..., 0]


def _plain(value: Real) -> Real:
    return float(value) if np.ndim(value) == 0 else value
