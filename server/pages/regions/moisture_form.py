"""The part of a region's form for humidity indoors and the energy code."""

from __future__ import annotations

from collections.abc import Mapping
from gettext import gettext as _
from typing import Any

from server.pages.house.labels import HUMIDITY_CLASSES
from server.pages.house.typed import basis_of, typed_text
from server.pages.regions.raw_values import raw_of
from server.regions.defaults import LIMITS, RegionDefaults

CLASS, SHARES, EDITION = "humidity_class", "relative_humidity", "edition"
SHARE_NAMES = tuple(f"{SHARES}-{month}" for month in range(12))
LIMIT_NAMES = {name: f"limit-{name}" for name in LIMITS}


def moisture_values(defaults: RegionDefaults) -> dict[str, str]:
    """What the fields hold for defaults."""
    document = defaults.as_written()
    humidity, code = document.get("indoor_humidity", {}), document.get("energy_code", {})
    shares = humidity.get(SHARES, [None] * 12)
    values = dict(zip(SHARE_NAMES, map(typed_text, shares), strict=True))
    values[f"{SHARES}-basis"] = basis_of(shares)
    values[CLASS] = typed_text(humidity.get(CLASS))
    values[EDITION] = defaults.energy_code.edition if defaults.energy_code else ""
    for name, field in LIMIT_NAMES.items():
        values[field] = typed_text(code.get(name))
        values[f"{field}-basis"] = basis_of(code.get(name))
    return values


def read_moisture(
    values: Mapping[str, str], places: dict[str, str], faults: dict[str, str]
) -> dict[str, Any]:
    """Humidity indoors and the energy code of a form, as far as they are given."""
    read = {
        "indoor_humidity": _humidity(values, places, faults),
        "energy_code": _energy_code(values, places, faults),
    }
    return {name: part for name, part in read.items() if part}


def _humidity(
    values: Mapping[str, str], places: dict[str, str], faults: dict[str, str]
) -> dict[str, Any]:
    places |= {"indoor_humidity": CLASS, f"indoor_humidity.{CLASS}": CLASS}
    places |= {f"indoor_humidity.{SHARES}[{at}]": name for at, name in enumerate(SHARE_NAMES)}
    given = [name for name in SHARE_NAMES if values[name]]
    if given and values[CLASS]:
        faults[CLASS] = _("Choose a class or write twelve months, not both.")
        return {}
    if given:
        missing = [name for name in SHARE_NAMES if not values[name]]
        faults |= dict.fromkeys(missing, _("Write all twelve months."))
        basis = values.get(f"{SHARES}-basis", "")
        shares = [raw_of(values[name], basis, plain=True) for name in SHARE_NAMES]
        return {} if missing else {SHARES: shares}
    text = values[CLASS]
    known = [value for value, _words in HUMIDITY_CLASSES]
    return {CLASS: int(text) if text in known else text} if text else {}


def _energy_code(
    values: Mapping[str, str], places: dict[str, str], faults: dict[str, str]
) -> dict[str, Any]:
    places[f"energy_code.{EDITION}"] = EDITION
    places |= {f"energy_code.{name}": field for name, field in LIMIT_NAMES.items()}
    limits = {
        name: raw_of(values[field], values.get(f"{field}-basis", ""), plain=name == "shgc")
        for name, field in LIMIT_NAMES.items()
        if values[field]
    }
    if not values[EDITION]:
        if limits:
            faults[EDITION] = _("Choose the edition that has the other limits.")
        return {}
    return {EDITION: values[EDITION]} | limits
