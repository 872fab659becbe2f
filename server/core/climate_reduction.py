"""From days or hours of weather to the twelve months that a climate holds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from server.core.arrays import Array
from server.core.moisture import saturation_pressure

LEAST_DAYS = 20  # of a month: fewer do not stand for it
DESIGN_COLD, DESIGN_HOT = 1.0, 99.0  # percent of all hours below, of one or more years
Whole = NDArray[np.integer]


class TooFewDays(Exception):
    """A month has too few days. month: 1 to 12; days: how many it has."""

    def __init__(self, month: int, days: int) -> None:
        self.month, self.days = month, days
        super().__init__(month, days)


@dataclass(frozen=True, slots=True, eq=False)
class MonthlyClimate:
    """Twelve months, as `Climate` holds them; None where the weather does not tell.

    Temperatures deg C, spreads K, sun J/m2 of a mean day, wind m/s, humidity kg/kg. Design
    temperatures deg C and the daily range K only from hours.
    """

    mean_temperature: Array
    temperature_deviation: Array
    horizontal_irradiation: Array | None = None
    wind_speed: Array | None = None
    humidity_ratio: Array | None = None
    sun_variation: Array | None = None
    diurnal_deviation: Array | None = None
    heating_design_temperature: float | None = None
    cooling_design_temperature: float | None = None
    cooling_daily_range: float | None = None


def reduce_days(
    months: Whole,
    mean: Array,
    *,
    sun: Array | None = None,
    wind: Array | None = None,
    humidity: Array | None = None,
) -> MonthlyClimate:
    """Monthly figures of days, of one year or of many.

    Spreads are standard deviations of all days of a calendar month (n - 1).
    Shapes: (days,) each; months 1 to 12, deg C, J/m2, m/s, kg/kg. Range: each month with 20 days.
    Raises: TooFewDays.
    Source: definition.
    """
    for month in range(1, 13):
        days = int((months == month).sum())
        if days < LEAST_DAYS:
            raise TooFewDays(month, days)
    daily_sun = None if sun is None else _by_month(months, sun)
    variation = None
    if sun is not None and daily_sun is not None:
        spread = _by_month(months, sun, spread=True)
        variation = np.where(daily_sun > 0.0, spread / np.maximum(daily_sun, 1.0), 0.0)
    return MonthlyClimate(
        mean_temperature=_by_month(months, mean),
        temperature_deviation=_by_month(months, mean, spread=True),
        horizontal_irradiation=daily_sun,
        wind_speed=None if wind is None else _by_month(months, wind),
        humidity_ratio=None if humidity is None else _by_month(months, humidity),
        sun_variation=variation,
    )


def reduce_hours(
    months: Whole,
    days: Whole,
    temperature: Array,
    *,
    sun: Array,
    wind: Array,
    humidity: Array | None = None,
) -> MonthlyClimate:
    """Monthly figures of hours; each hour belongs to the day in which it ends or begins alike.

    Design temperatures are the 1st and 99th percentile of all hours; the daily range is the mean
    one of the hottest month.
    Shapes: (hours,) each; months 1 to 12, days numbered on, deg C, J/m2 in the hour, m/s, kg/kg.
    Range: whole days. Raises: TooFewDays.
    Source: definition; design percentiles after the manner of ASHRAE Fundamentals, of one place's
    own hours.
    """
    number, first = np.unique(days, return_index=True)
    place = np.searchsorted(number, days)
    count = np.bincount(place)

    def daily(values: Array, *, total: bool = False) -> Array:
        summed: Array = np.bincount(place, weights=values).astype(float)
        return summed if total else summed / count

    day_months = months[first]
    mean = daily(temperature)
    reduced = reduce_days(
        day_months,
        mean,
        sun=daily(sun, total=True),
        wind=daily(wind),
        humidity=None if humidity is None else daily(humidity),
    )
    away = temperature - mean[place]
    high = np.full(len(number), -np.inf)
    low = np.full(len(number), np.inf)
    np.maximum.at(high, place, temperature)
    np.minimum.at(low, place, temperature)
    hottest = int(np.argmax(reduced.mean_temperature)) + 1
    return MonthlyClimate(
        mean_temperature=reduced.mean_temperature,
        temperature_deviation=reduced.temperature_deviation,
        horizontal_irradiation=reduced.horizontal_irradiation,
        wind_speed=reduced.wind_speed,
        humidity_ratio=reduced.humidity_ratio,
        sun_variation=reduced.sun_variation,
        diurnal_deviation=np.sqrt(_by_month(months, away**2)),
        heating_design_temperature=float(np.percentile(temperature, DESIGN_COLD)),
        cooling_design_temperature=float(np.percentile(temperature, DESIGN_HOT)),
        cooling_daily_range=float((high - low)[day_months == hottest].mean()),
    )


def humidity_ratio(dew_point: float, pressure: float) -> float:
    """Water in air by its dew point.

    w = 0.621945 p_w/(p - p_w).
    Shapes: floats, deg C and Pa; result kg/kg. Range: a pressure far above the vapour's.
    Raises: nothing.
    Source: ASHRAE Fundamentals, psychrometrics; vapour pressure by `saturation_pressure`.
    """
    vapour = saturation_pressure(dew_point)
    return 0.621945 * vapour / (pressure - vapour)


def thermal_zone(heating_degree_days: float, cooling_degree_days: float) -> int:
    """The number of the climate zone by degree-days; moisture needs the rain, which is not asked.

    heating to 18.3 deg C (65 degF), cooling to 10 deg C (50 degF).
    Shapes: floats, K d. Range: 0 to 8. Raises: nothing.
    Source: ASHRAE Standard 169-2013 and later, thermal zones (memory).
    """
    hot = [(6000.0, 0), (5000.0, 1), (3500.0, 2)]
    for above, zone in hot:
        if cooling_degree_days > above:
            return zone
    cold = [(2000.0, 3), (3000.0, 4), (4000.0, 5), (5000.0, 6), (7000.0, 7)]
    for upto, zone in cold:
        if heating_degree_days <= upto:
            return zone
    return 8


def _by_month(months: Whole, values: Array, *, spread: bool = False) -> Array:
    groups = [values[months == month] for month in range(1, 13)]
    if spread:
        return np.array([group.std(ddof=1) for group in groups])
    return np.array([group.mean() for group in groups])
