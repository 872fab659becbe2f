"""The climate of one place, by month."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from server.core.arrays import Array, Real
from server.core.degree_days import erbs_deviation
from server.core.errors import require_within

MONTH_DAYS: Array = np.array([31.0, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
YEAR_DAYS = float(MONTH_DAYS.sum())


@dataclass(frozen=True, slots=True, eq=False)
class Climate:
    """Monthly figures; every array ends in twelve months.

    latitude, longitude: degrees, north and east positive. elevation: m. mean_temperature: deg C.
    temperature_deviation: K, standard deviation of the daily means (estimated where None).
    horizontal_irradiation: J/m2, mean daily sum. wind_speed: m/s. humidity_ratio: kg/kg.
    sun_variation: standard deviation of the daily sum over its mean. diurnal_deviation: K, rms
    departure of the hours from their day's mean. Design temperatures: deg C; daily range: K.
    Raises: ImpossibleValue.
    """

    name: str
    latitude: Real
    longitude: Real
    elevation: Real
    mean_temperature: Array
    horizontal_irradiation: Array
    wind_speed: Array
    temperature_deviation: Array | None = None
    humidity_ratio: Array | None = None
    sun_variation: Array | None = None
    diurnal_deviation: Array | None = None
    heating_design_temperature: Real | None = None
    cooling_design_temperature: Real | None = None
    cooling_daily_range: Real | None = None
    sensible_heat_ratio: Real | None = None
    iecc_zone: str | None = None

    def __post_init__(self) -> None:
        require_within("latitude", self.latitude, -89.0, 89.0)
        require_within("longitude", self.longitude, -180.0, 180.0)
        require_within("elevation", self.elevation, -500.0, 6000.0)
        require_within("mean_temperature", self.mean_temperature, -70.0, 60.0)
        require_within("horizontal_irradiation", self.horizontal_irradiation, 0.0, 50e6)
        require_within("wind_speed", self.wind_speed, 0.0, 40.0)
        if self.temperature_deviation is not None:
            require_within("temperature_deviation", self.temperature_deviation, 0.0, 30.0)
        if self.humidity_ratio is not None:
            require_within("humidity_ratio", self.humidity_ratio, 0.0, 0.04)
        if self.sun_variation is not None:
            require_within("sun_variation", self.sun_variation, 0.0, 5.0)
        if self.diurnal_deviation is not None:
            require_within("diurnal_deviation", self.diurnal_deviation, 0.0, 30.0)
        if self.sensible_heat_ratio is not None:
            require_within("sensible_heat_ratio", self.sensible_heat_ratio, 0.1, 1.0)

    @property
    def annual_mean_temperature(self) -> Real:
        """Day-weighted annual mean of the outdoor temperature, deg C."""
        return annual_mean(self.mean_temperature)

    @property
    def daily_deviation(self) -> Array:
        """Standard deviation of the daily means, K: as given, else by Erbs et al. (1983)."""
        if self.temperature_deviation is not None:
            return self.temperature_deviation
        return erbs_deviation(self.mean_temperature, MONTH_DAYS)


def annual_mean(monthly: Array) -> Real:
    """Mean of twelve monthly means, weighted by the days of each month.

    Shapes: (..., 12) to (...), in the unit given.
    Range: any.
    Raises: nothing.
    Source: definition; a year of 365 days.
    """
    mean = (np.asarray(monthly) * MONTH_DAYS).sum(axis=-1) / YEAR_DAYS
    return float(mean) if np.ndim(mean) == 0 else mean
