"""The form of twelve months of one's own; a plain number takes the unit of its column."""

from __future__ import annotations

import calendar
import re
from dataclasses import dataclass
from gettext import gettext as _
from typing import Any

from starlette.datastructures import FormData

from server.core.climate import Climate
from server.files.house_file import BASES
from server.files.seeds import station_climate
from server.pages.form_texts import text_of
from server.pages.house.typed import typed_text
from server.pages.regions.forms import SentForm, checked_with_climate
from server.regions.defaults import RegionDefaults

MONTHS = tuple(calendar.month_name)[1:]
_NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)", re.ASCII)
BASIS = "basis"


@dataclass(frozen=True, slots=True)
class Column:
    """A quantity of every month. scale: from the core's unit to the first of its units."""

    name: str
    label: str
    units: tuple[str, ...]
    needed: bool = True
    scale: float = 1.0


COLUMNS = (
    Column("mean_temperature", _("Mean temperature"), ("degC", "degF")),
    Column(
        "horizontal_irradiation",
        _("Sun on a level surface, a day"),
        ("MJ/m^2", "kWh/m^2", "Btu/ft^2"),
        scale=1e-6,
    ),
    Column("wind_speed", _("Wind speed"), ("m/s", "mph")),
    Column("humidity_ratio", _("Humidity ratio"), ("g/kg", "gr/lb"), needed=False, scale=1e3),
    Column(
        "temperature_deviation",
        _("Standard deviation of daily means"),
        ("delta_degC", "delta_degF"),
        needed=False,
    ),
)
PLACE = {  # field to the unit of a plain number; empty where one must be written
    "name": "",
    "latitude": "deg",
    "longitude": "deg",
    "elevation": "",
    "heating_design_temperature": "",
    "cooling_design_temperature": "",
    "cooling_daily_range": "",
}
_KEPT = ("sun_variation", "diurnal_deviation", "sensible_heat_ratio")  # no fields of this form


def month_values(defaults: RegionDefaults) -> dict[str, str]:
    """What the fields hold: the region's own months, or else those of its station."""
    values = {f"unit-{column.name}": column.units[0] for column in COLUMNS} | {BASIS: "document"}
    climate = defaults.as_written()["climate"]
    if "station" in climate:
        found = station_climate(climate["station"])
        return values | (_of_station(found) if found else {})
    values |= {name: typed_text(climate.get(name)) for name in PLACE}
    for column in COLUMNS:
        for month, raw in enumerate(climate.get(column.name, [""] * 12)):
            values[f"{column.name}-{month}"] = typed_text(raw)
    return values


def _of_station(climate: Climate) -> dict[str, str]:
    values = {
        "name": climate.name,
        "latitude": f"{climate.latitude} deg",
        "longitude": f"{climate.longitude} deg",
        "elevation": f"{climate.elevation} m",
        "heating_design_temperature": f"{climate.heating_design_temperature} degC",
        "cooling_design_temperature": f"{climate.cooling_design_temperature} degC",
        "cooling_daily_range": f"{climate.cooling_daily_range} delta_degC",
    }
    for column in COLUMNS:
        for month, value in enumerate(getattr(climate, column.name)):
            values[f"{column.name}-{month}"] = f"{value * column.scale:.5g}"
    return values


def read_months(form: FormData, before: RegionDefaults) -> SentForm:
    """The defaults with the months of a form."""
    values = {name: text_of(form, name) for name in form}
    basis = values.get(BASIS, "")
    faults: dict[str, str] = {}
    places: dict[str, str] = {}
    climate = _kept(before)
    for name, unit in PLACE.items():
        places[f"climate.{name}"] = name
        text = values.get(name, "")
        if text:
            climate[name] = text if name == "name" else _raw(text, unit, basis)
    for column in COLUMNS:
        texts = [values.get(f"{column.name}-{month}", "") for month in range(12)]
        unit = values.get(f"unit-{column.name}", "")
        unit = unit if unit in column.units else column.units[0]
        for month, text in enumerate(texts):
            field = f"{column.name}-{month}"
            places[f"climate.{column.name}[{month}]"] = field
            if not text and (column.needed or any(texts)):
                faults[field] = _("Write all twelve months.")
        places[f"climate.{column.name}"] = column.name
        if all(texts):
            climate[column.name] = [_raw(text, unit, basis) for text in texts]
    defaults, refused = checked_with_climate(before, climate, places)
    for column in COLUMNS:
        words = refused.pop(column.name, None)
        if words is not None:
            refused |= _where(column.name, words, climate, before)
    faults = refused | faults
    return SentForm(values, None if faults else defaults, faults)


def _where(
    name: str, words: str, climate: dict[str, Any], before: RegionDefaults
) -> dict[str, str]:
    """Which months of a column are refused: each is tried as if it were all twelve."""
    place = {f"climate.{name}": name}
    found = {
        f"{name}-{month}": words
        for month, raw in enumerate(climate.get(name, []))
        if name in checked_with_climate(before, climate | {name: [raw] * 12}, place)[1]
    }
    return found or {f"{name}-0": words}


def _kept(before: RegionDefaults) -> dict[str, Any]:
    climate = before.as_written()["climate"]
    return {name: climate[name] for name in _KEPT if name in climate}


def _raw(text: str, unit: str, basis: str) -> Any:
    typed = f"{text} {unit}" if unit and _NUMBER.fullmatch(text) else text
    return {"value": typed, "basis": basis} if basis in BASES else typed
