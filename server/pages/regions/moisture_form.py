"""The part of a region's form for humidity indoors and the energy code."""

from __future__ import annotations

from collections.abc import Mapping
from gettext import gettext as _
from typing import Any

from server.files.house_file import BASES
from server.pages.house.labels import HUMIDITY_CLASSES
from server.pages.house.typed import (
    U_LIKE,
    NotRead,
    basis_of,
    humidities,
    limit_text,
    typed_text,
)
from server.pages.regions.raw_values import raw_of
from server.regions.defaults import LIMITS, RegionDefaults
from server.units import System, UnitError, read_quantity

CLASS, SHARES, EDITION = "humidity_class", "relative_humidity", "edition"
LIMIT_NAMES = {name: f"limit-{name}" for name in LIMITS}
LARGEST_U = 100.0  # W/(m2 K)


def moisture_values(defaults: RegionDefaults) -> dict[str, str]:
    """What the fields hold for defaults."""
    document = defaults.as_written()
    humidity, code = document.get("indoor_humidity", {}), document.get("energy_code", {})
    shares = humidity.get(SHARES)
    values = {SHARES: typed_text(shares), f"{SHARES}-basis": basis_of(shares)}
    values[CLASS] = typed_text(humidity.get(CLASS))
    values[EDITION] = defaults.energy_code.edition if defaults.energy_code else ""
    for name, field in LIMIT_NAMES.items():
        values[field] = typed_text(code.get(name))
        values[f"{field}-basis"] = basis_of(code[name]) if name in code else "document"
    return values


def read_moisture(
    values: Mapping[str, str], places: dict[str, str], faults: dict[str, str], units: System
) -> dict[str, Any]:
    """Humidity indoors and the energy code of a form, as far as they are given.

    What is refused here is left out, so that all else of the form is still checked.
    """
    read = {
        "indoor_humidity": _humidity(values, places, faults),
        "energy_code": _energy_code(values, places, faults, units),
    }
    return {name: part for name, part in read.items() if part}


def _humidity(
    values: Mapping[str, str], places: dict[str, str], faults: dict[str, str]
) -> dict[str, Any]:
    places |= {"indoor_humidity": CLASS, f"indoor_humidity.{CLASS}": CLASS}
    places |= {f"indoor_humidity.{SHARES}[{month}]": SHARES for month in range(12)}
    text = values[CLASS]
    if values[SHARES]:
        if text:
            faults[CLASS] = _("Choose a class or write humidities, not both.")
        basis = values.get(f"{SHARES}-basis", "")
        try:
            shares = humidities(values[SHARES])
        except NotRead as refusal:
            faults[SHARES] = str(refusal)
            return {}
        said = basis in BASES
        return {SHARES: [{"value": each, "basis": basis} if said else each for each in shares]}
    known = [value for value, _words in HUMIDITY_CLASSES]
    return {CLASS: int(text) if text in known else text} if text else {}


def _energy_code(
    values: Mapping[str, str], places: dict[str, str], faults: dict[str, str], units: System
) -> dict[str, Any]:
    places[f"energy_code.{EDITION}"] = EDITION
    places |= {f"energy_code.{name}": field for name, field in LIMIT_NAMES.items()}
    limits = {}
    for name, field in LIMIT_NAMES.items():
        if not values[field]:
            continue
        try:
            limits[name] = _limit(name, values[field], values.get(f"{field}-basis", ""), units)
        except (NotRead, UnitError) as refusal:
            faults[field] = str(refusal)
    if not values[EDITION]:
        if any(values[field] for field in LIMIT_NAMES.values()):
            faults[EDITION] = _("Choose the edition that has the other limits.")
        return {}
    return {EDITION: values[EDITION]} | limits


def _limit(name: str, text: str, basis: str, units: System) -> Any:
    """A limit as the document writes it. Raises: NotRead, UnitError."""
    if name == "shgc":
        raw = raw_of(text, basis, plain=True)
        share = raw["value"] if isinstance(raw, dict) else raw
        if not isinstance(share, float) or not 0.0 < share <= 1.0:
            raise NotRead(_("Write a plain number above 0 and up to 1, like 0.40."))
        return raw
    text = limit_text(text, units)
    if not 0.0 < read_quantity(text, "u_value") <= LARGEST_U:
        raise NotRead(_("A U is above 0: write it {like}.").format(like=_(U_LIKE)))
    return raw_of(text, basis)
