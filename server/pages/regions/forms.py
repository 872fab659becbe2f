"""The form of a region's defaults: from the defaults to texts, from texts to a document."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from gettext import gettext as _
from typing import Any

from starlette.datastructures import FormData

from server.files.faults import BadFile
from server.files.places import written
from server.pages.form_texts import text_of
from server.pages.house.typed import basis_of, typed_text
from server.pages.regions.moisture_form import moisture_values, read_moisture
from server.pages.regions.raw_values import raw_of
from server.regions.checking import MOST_FUELS, checked_defaults
from server.regions.defaults import FramingFractions, RegionDefaults
from server.units import System

PAGE = "page"  # where a fault belongs to no field
SET_POINTS = ("heating", "cooling")
FRACTIONS = tuple(FramingFractions.model_fields)
_PLAIN = ("name", "note", "films", "iecc_zone")
_EMPTY_ROWS = 2  # of fuels that can be added at once


@dataclass(frozen=True, slots=True)
class SentForm:
    """Texts by field, and what was wrong with them, by field; defaults None where something was."""

    values: Mapping[str, str]
    defaults: RegionDefaults | None = None
    faults: Mapping[str, str] = field(default_factory=dict)


def values_of(defaults: RegionDefaults) -> dict[str, str]:
    """What the fields hold for defaults."""
    document = defaults.as_written()
    values = {name: document.get(name, "") for name in _PLAIN} | {"films": defaults.films}
    for name in SET_POINTS:
        _put(values, name, document["set_points"][name])
    for name in FRACTIONS:
        _put(values, name, document["framing_fractions"][name])
    fuels = list(dict.fromkeys([*document["prices"], *document["carbon"]]))
    for row, fuel in enumerate([*fuels, *[""] * _EMPTY_ROWS]):
        values[f"fuel-{row}"] = fuel
        _put(values, f"price-{row}", document["prices"].get(fuel))
        _put(values, f"carbon-{row}", document["carbon"].get(fuel))
    return values | moisture_values(defaults)


def _put(values: dict[str, str], name: str, raw: Any) -> None:
    values[name], values[f"{name}-basis"] = typed_text(raw), basis_of(raw)


def fuel_rows(values: Mapping[str, str]) -> list[int]:
    """The rows of fuels that a form has."""
    return [row for row in range(MOST_FUELS + _EMPTY_ROWS) if f"fuel-{row}" in values]


def read_region(form: FormData, before: RegionDefaults, units: System) -> SentForm:
    """The defaults that a form asks for; their climate has pages of its own.

    units: those the reader reads, for plain numbers.
    """
    values = {name: text_of(form, name) for name in (*values_of(before), *form)}
    faults: dict[str, str] = {}
    places = {name: name for name in _PLAIN}
    document: dict[str, Any] = {name: values[name] for name in _PLAIN if values[name]}
    document["climate"] = before.as_written()["climate"]
    document["set_points"] = _section("set_points", SET_POINTS, values, places)
    document["framing_fractions"] = _section(
        "framing_fractions", FRACTIONS, values, places, plain=True
    )
    document |= _fuels(values, places, faults)
    document |= read_moisture(values, places, faults, units)
    defaults = _checked(document, places, faults)
    return SentForm(values, None if faults else defaults, faults)


def _section(
    section: str,
    names: tuple[str, ...],
    values: Mapping[str, str],
    places: dict[str, str],
    *,
    plain: bool = False,
) -> dict[str, Any]:
    places |= {f"{section}.{name}": name for name in names}
    return {name: _raw(values, name, plain=plain) for name in names if values[name]}


def _raw(values: Mapping[str, str], name: str, *, plain: bool = False) -> Any:
    return raw_of(values[name], values.get(f"{name}-basis", ""), plain=plain)


def _fuels(
    values: Mapping[str, str], places: dict[str, str], faults: dict[str, str]
) -> dict[str, dict[str, Any]]:
    """Prices and carbon; a row with a name only says nothing and is left out."""
    read: dict[str, dict[str, Any]] = {"prices": {}, "carbon": {}}
    places |= {"prices": "price-0", "carbon": "carbon-0"}
    seen = set()
    for row in fuel_rows(values):
        fuel = values[f"fuel-{row}"]
        for section, name in (("prices", f"price-{row}"), ("carbon", f"carbon-{row}")):
            if not values.get(name):
                continue
            if not fuel:
                faults[f"fuel-{row}"] = _("Name the fuel.")
                continue
            read[section][fuel] = _raw(values, name)
            places[written([section, fuel])] = name
        if fuel and fuel in seen:
            faults[f"fuel-{row}"] = _("This fuel stands here twice.")
        seen.add(fuel)
    return read


def _checked(
    document: Any, places: Mapping[str, str], faults: dict[str, str]
) -> RegionDefaults | None:
    """The defaults of a document; faults go to the field at their place."""
    try:
        return checked_defaults(document)
    except BadFile as refusal:
        for fault in refusal.faults:
            name = places.get(fault.place)
            words = fault.words if name else str(fault)
            faults.setdefault(name or PAGE, words)
    return None


def checked_with_climate(
    before: RegionDefaults, climate: Mapping[str, Any], places: Mapping[str, str]
) -> tuple[RegionDefaults | None, dict[str, str]]:
    """The same defaults with another climate, and what is wrong with it, by field."""
    faults: dict[str, str] = {}
    document = before.as_written() | {"climate": dict(climate)}
    defaults = _checked(document, places, faults)
    return defaults, faults
