"""Air: site density, leakage from a blower-door test, infiltration by month, ventilation."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from server.core.arrays import Array, Real, by_month
from server.core.errors import RecoveryWithoutBalance, require_within

TEST_DENSITY = 1.2041  # kg/m3, dry air at 20 deg C and sea level, for the leakage area only
SPECIFIC_HEAT = 1006.0  # J/(kg K), dry air
GAS_CONSTANT = 287.055  # J/(kg K), dry air
ROOM_TEMPERATURE = 293.15  # K
FLOW_EXPONENT = 0.65
MOST_STOREYS = 3
MOST_FLOW = 100.0  # m3/s, above any house even at 50 Pa
MOST_FAN_FLOW = 5.0  # m3/s, above the fans of any house

_STACK = {1: 0.000145, 2: 0.000290, 3: 0.000435}
_WIND = {
    1: (0.000319, 0.000246, 0.000174, 0.000104, 0.000032),
    2: (0.000420, 0.000325, 0.000231, 0.000137, 0.000042),
    3: (0.000494, 0.000382, 0.000271, 0.000161, 0.000049),
}


@dataclass(frozen=True, slots=True, eq=False)
class BlowerDoor:
    """Leakage measured at 50 Pa: flow m3/s, shelter class 1 (open) to 5 (very sheltered)."""

    flow_at_50_pa: Real
    shelter_class: int = 3

    def __post_init__(self) -> None:
        require_within("flow_at_50_pa", self.flow_at_50_pa, 0.0, MOST_FLOW)
        require_within("shelter_class", float(self.shelter_class), 1.0, 5.0)


@dataclass(frozen=True, slots=True, eq=False)
class ConstantInfiltration:
    """Infiltration that does not change with the weather, m3/s."""

    flow: Real

    def __post_init__(self) -> None:
        require_within("flow", self.flow, 0.0, MOST_FLOW)


Leakage = BlowerDoor | ConstantInfiltration


@dataclass(frozen=True, slots=True, eq=False)
class Ventilation:
    """Fans: outdoor flow m3/s, sensible heat recovery 0 to 1, both ways balanced or one way."""

    flow: Real = 0.0
    heat_recovery: Real = 0.0
    balanced: bool = True

    def __post_init__(self) -> None:
        require_within("flow", self.flow, 0.0, MOST_FAN_FLOW)
        require_within("heat_recovery", self.heat_recovery, 0.0, 1.0)
        if not self.balanced and bool(np.any(self.heat_recovery)):
            raise RecoveryWithoutBalance("heat_recovery")


NO_FANS = Ventilation()


@dataclass(frozen=True, slots=True, eq=False)
class AirFlows:
    """Outdoor air by month, (..., 12) m3/s: all of it, and what of it carries sensible heat."""

    outdoor: Array
    net_of_recovery: Array


def air_pressure(elevation: Real) -> Real:
    """Pressure of the air at a site.

    p = 101325 (1 - 2.25577e-5 z)^5.2559.
    Shapes: any, m; result the same, Pa.
    Range: -500 m to 6000 m.
    Raises: nothing.
    Source: standard atmosphere.
    """
    pressure: Real = 101325.0 * (1.0 - 2.25577e-5 * elevation) ** 5.2559
    return pressure


def air_density(elevation: Real) -> Real:
    """Density of dry air at 20 deg C at a site.

    Shapes: any, m; result the same, kg/m3.
    Range: -500 m to 6000 m.
    Raises: nothing.
    Source: `air_pressure`; ideal gas.
    """
    return air_pressure(elevation) / (GAS_CONSTANT * ROOM_TEMPERATURE)


def air_heat_capacity(elevation: Real) -> Real:
    """Volumetric heat capacity of air at a site.

    Shapes: any, m; result the same, J/(m3 K).
    Range: -500 m to 6000 m.
    Raises: nothing.
    Source: `air_density` times 1006 J/(kg K).
    """
    return air_density(elevation) * SPECIFIC_HEAT


def leakage_area(flow_at_50_pa: Real) -> Real:
    """Effective leakage area at 4 Pa of a building that passes a flow at 50 Pa.

    A_L = 1e4 Q_4 sqrt(rho / (2 * 4 Pa)), Q_4 = Q_50 (4/50)^0.65.
    Shapes: any, m3/s; result the same, cm2.
    Range: zero and up.
    Raises: nothing.
    Source: ASHRAE Fundamentals, ventilation and infiltration chapter; exponent 0.65 (memory).
    """
    flow_at_4_pa: Real = flow_at_50_pa * (4.0 / 50.0) ** FLOW_EXPONENT
    return 1e4 * flow_at_4_pa * math.sqrt(TEST_DENSITY / (2.0 * 4.0))


def basic_model_flow(
    area: Real,
    temperature_difference: Array,
    wind_speed: Array,
    storeys: float,
    shelter_class: int,
) -> Array:
    """Infiltration by stack and wind through an effective leakage area.

    Q = (A_L/1000) sqrt(C_s |dT| + C_w U^2).
    Shapes: area (...) cm2; differences and wind (..., 12), K and m/s; result (..., 12) m3/s.
    Range: 1 to 3 storeys, fractions rounded up, more counted as 3; shelter classes 1 to 5.
    Raises: nothing.
    Source: ASHRAE Fundamentals, basic model (Sherman and Grimsrud), coefficients from memory.
    """
    stack, wind = basic_model_coefficients(storeys, shelter_class)
    drive = np.sqrt(stack * np.abs(temperature_difference) + wind * wind_speed**2)
    result: Array = by_month(area) / 1000.0 * drive
    return result


def basic_model_coefficients(storeys: float, shelter_class: int) -> tuple[float, float]:
    """Stack and wind coefficient of the basic model.

    Shapes: plain numbers; results (L/s)^2/(cm^4 K) and (L/s)^2/(cm^4 (m/s)^2).
    Range: as `basic_model_flow`.
    Raises: nothing.
    Source: ASHRAE Fundamentals, basic model, coefficients from memory.
    """
    counted = min(max(math.ceil(storeys), 1), MOST_STOREYS)
    return _STACK[counted], _WIND[counted][shelter_class - 1]


def air_flows(
    leakage: Leakage,
    ventilation: Ventilation,
    storeys: float,
    indoor_temperature: Real,
    outdoor_temperature: Array,
    wind_speed: Array,
) -> AirFlows:
    """Infiltration and ventilation together.

    A balanced system adds to infiltration; a one-way fan combines with it in quadrature.
    Shapes: scalars (...), months (..., 12); deg C and m/s; result (..., 12) m3/s.
    Range: as `basic_model_flow`.
    Raises: nothing.
    Source: ASHRAE Fundamentals, combining of infiltration and mechanical ventilation (memory).
    """
    if isinstance(leakage, BlowerDoor):
        difference = by_month(indoor_temperature) - outdoor_temperature
        infiltration = basic_model_flow(
            leakage_area(leakage.flow_at_50_pa),
            difference,
            wind_speed,
            storeys,
            leakage.shelter_class,
        )
    else:
        infiltration = by_month(leakage.flow) * np.ones_like(outdoor_temperature)
    fan = by_month(ventilation.flow)
    if not ventilation.balanced:
        combined = np.sqrt(infiltration**2 + fan**2)
        return AirFlows(outdoor=combined, net_of_recovery=combined)
    return AirFlows(
        outdoor=infiltration + fan,
        net_of_recovery=infiltration + fan * (1.0 - by_month(ventilation.heat_recovery)),
    )


CRAWL_SHIELDING = {"sheltered": 0.02, "average": 0.05, "exposed": 0.10}  # f_w, ISO 13370 (memory)


def crawlspace_flow(
    opening_area: Real, perimeter: Real, wind_speed: Real, shielding: float
) -> Real:
    """Outdoor air through the vents of a crawlspace: 0.59 epsilon v f_w for each m of perimeter.

    Shapes: any that broadcast; m2 of opening per m, m, m/s (yearly mean); result m3/s.
    Range: zero and up; shielding 0.02 (sheltered) to 0.10 (exposed).
    Raises: nothing.
    Source: ISO 13370:2007 9.2, U_x = 1450 epsilon v f_w/B' (memory), as a flow of air.
    """
    return 0.59 * opening_area * wind_speed * shielding * perimeter


def linear_loss(
    loss: Callable[[Array], Array], mean_temperature: Array, spread: Array
) -> tuple[Array, Array]:
    """The straight line that stands best for a loss over normally distributed temperatures.

    Infiltration grows with the cold, so its heat does not go with the month's mean: the loss is
    taken at the mean and sqrt(3) spreads either side, with the weights 1/6, 2/3 and 1/6. Mean loss
    and slope -E[loss (T - T_m)]/s^2 are then exact up to the fifth and fourth power of T.
    Shapes: (..., 12) deg C and K to (..., 12); results W, and W/K for each kelvin colder.
    Range: a spread of zero is held at 0.01 K.
    Raises: nothing.
    Source: least squares (statistical linearisation); Gauss-Hermite quadrature of three nodes.
    """
    away = math.sqrt(3.0) * np.maximum(spread, 0.01)
    cold, middle, warm = (loss(mean_temperature + side * away) for side in (-1.0, 0.0, 1.0))
    return (cold + 4.0 * middle + warm) / 6.0, (cold - warm) / (2.0 * away)


def flow_from_air_changes(air_changes: Real, volume: Real) -> Real:
    """Air flow of a number of air changes an hour.

    Shapes: any that broadcast; 1/h and m3; result m3/s.
    Range: zero and up.
    Raises: nothing.
    Source: definition.
    """
    return air_changes * volume / 3600.0


CFM = 0.3048**3 / 60.0  # m3/s in one cubic foot a minute
SQUARE_FOOT = 0.3048**2  # m2


def whole_house_flow(floor_area: Real, bedrooms: float) -> Real:
    """The fresh air a dwelling is to have, without credit for leaks.

    0.03 cfm for each square foot of floor and 7.5 cfm for each bedroom and one more.
    Shapes: any, m2; a count; result m3/s. Range: zero and up. Raises: nothing.
    Source: ASHRAE 62.2-2016 4.1.1, Equation 4.1a (memory).
    """
    flow: Real = CFM * (0.03 * floor_area / SQUARE_FOOT + 7.5 * (bedrooms + 1.0))
    return flow
