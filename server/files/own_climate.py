"""A climate of one's own out of a weather file, as a house file writes it."""

from __future__ import annotations

from collections.abc import Callable
from gettext import gettext as _
from typing import Any

import numpy as np

from server.core.arrays import Array
from server.core.climate import Climate
from server.files.climate_csv import Weather

_DIGITS = 6
# of a climate: the unit it is written in, and what of that unit one of the core's is
_MONTHS: dict[str, tuple[str, float]] = {
    "mean_temperature": (" degC", 1.0),
    "temperature_deviation": (" delta_degC", 1.0),
    "horizontal_irradiation": (" MJ/m^2", 1e-6),
    "wind_speed": (" m/s", 1.0),
    "humidity_ratio": (" g/kg", 1e3),
    "sun_variation": ("", 1.0),
    "diurnal_deviation": (" delta_degC", 1.0),
}
_ONES: dict[str, str] = {
    "heating_design_temperature": " degC",
    "cooling_design_temperature": " degC",
    "cooling_daily_range": " delta_degC",
}
_PLACE = {"latitude": " deg", "longitude": " deg", "elevation": " m"}
# spread goes with the temperatures of its own file, the sun's with its sun
_BELONGS_TO = {
    "temperature_deviation": "mean_temperature",
    "sun_variation": "horizontal_irradiation",
}


def own_climate(weather: Weather, base: Climate) -> dict[str, Any]:
    """The climate of a weather file; what the file does not tell stays as the base has it."""
    months = weather.months
    made: dict[str, Any] = {"name": weather.place.get("name") or _("Weather file")}
    for name, unit in _PLACE.items():
        made[name] = _one(weather.place.get(name, getattr(base, name)), unit)
    for name, (unit, scale) in _MONTHS.items():
        told = getattr(months, name)
        owner = _BELONGS_TO.get(name)
        if told is None and (owner is None or getattr(months, owner) is None):
            told = getattr(base, name)
        if told is not None and bool(np.all(np.isfinite(told))):
            made[name] = _twelve(told, unit, scale)
    for name, unit in _ONES.items():
        value = getattr(months, name)
        value = getattr(base, name) if value is None else value
        if value is not None:
            made[name] = _one(value, unit)
    if base.iecc_zone:
        made["iecc_zone"] = base.iecc_zone
    return made


def _twelve(values: Array, unit: str, scale: float) -> list[Any]:
    write: Callable[[float], Any] = (
        (lambda value: _one(value, unit)) if unit else (lambda value: round(value, _DIGITS))
    )
    return [write(float(value) * scale) for value in values]


def _one(value: Any, unit: str) -> dict[str, str]:
    return {"value": f"{float(value):.{_DIGITS}g}{unit}", "basis": "document"}
