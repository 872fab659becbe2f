"""The climate zone by degree-days, beside the one of the county map."""

from __future__ import annotations

from server.core.climate import MONTH_DAYS, Climate
from server.core.climate_reduction import thermal_zone
from server.core.degree_days import cooling_degree_days, heating_degree_days

HEATING_BASE, COOLING_BASE = 55.0 / 3.0, 10.0  # deg C: 65 and 50 degF


def zone_by_degree_days(climate: Climate) -> int:
    """The number of the zone that a climate's own months say. Moisture needs the rain."""
    mean, spread = climate.mean_temperature, climate.daily_deviation
    heating = heating_degree_days(mean, spread, HEATING_BASE, MONTH_DAYS).sum()
    cooling = cooling_degree_days(mean, spread, COOLING_BASE, MONTH_DAYS).sum()
    return thermal_zone(float(heating), float(cooling))
