"""What the pages of regions show."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from gettext import gettext as _
from typing import Any

from server.core.findings.code_limits import CodeLimits
from server.files.differences import text_of
from server.files.faults import Fault
from server.files.house_file import OwnClimate
from server.pages.house.fields import BASIS_CHOICES
from server.pages.house.labels import HINTS, HUMIDITY_CLASSES, LABELS
from server.pages.house.limits import limits_as_typed, zone_named
from server.pages.regions.forms import PAGE, fuel_rows
from server.pages.regions.moisture_form import LIMIT_NAMES, SHARES
from server.pages.regions.months_form import COLUMNS, MONTHS
from server.regions.defaults import EDITIONS, FILMS, LIMITS, RegionDefaults
from server.regions.stations import MOST_FOUND, Station, distance_km, find_stations, stations
from server.storage.regions import RegionVersion
from server.units import System

FRACTION_LABELS = {
    "walls": _("Framing, walls"),
    "roofs_and_ceilings": _("Framing, roofs and ceilings"),
    "floors": _("Framing, floors"),
}


@dataclass(frozen=True, slots=True)
class Place:
    """Where a region's climate was taken. Degrees, m."""

    name: str
    latitude: float
    longitude: float
    elevation: float
    zone: str | None


@dataclass(frozen=True, slots=True)
class FoundStation:
    """A station with how far it lies from the region's place (km) and how much above it (m)."""

    station: Station
    distance_km: float
    above: float


def place_of(defaults: RegionDefaults) -> Place | None:
    """Where the climate was taken; None for a station that the seed data has no longer."""
    climate = defaults.climate
    if isinstance(climate, OwnClimate):
        sizes = climate.latitude.value, climate.longitude.value, climate.elevation.value
        return Place(climate.name, *sizes, defaults.iecc_zone or climate.iecc_zone)
    found = stations().get(climate.station)
    if found is None:
        return None
    sizes = found.latitude, found.longitude, found.elevation
    return Place(f"{found.name}, {found.state}", *sizes, defaults.iecc_zone or found.zone)


def zone_of(defaults: RegionDefaults) -> str | None:
    """The zone that a region's houses lie in, where it is known."""
    place = place_of(defaults)
    return place.zone if place else None


def region_lines(
    regions: Sequence[RegionVersion],
    may_change: bool,
    values: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
) -> dict[str, Any]:
    """The list, each region with what it holds as texts, and the form that adds one."""
    lines = [
        {"region": each, "place": place_of(each.defaults), "facts": _facts(each.defaults)}
        for each in regions
    ]
    return {
        "lines": lines,
        "may_change": may_change,
        "values": values or {},
        "faults": faults or {},
        "of_page": PAGE,
    }


def _facts(defaults: RegionDefaults) -> list[tuple[str, str]]:
    document = defaults.as_written()
    facts = [
        (_("Heating set point"), document["set_points"]["heating"]),
        (_("Cooling set point"), document["set_points"]["cooling"]),
        *(
            (_("Price of {fuel}").format(fuel=fuel), raw)
            for fuel, raw in document["prices"].items()
        ),
        *(
            (_("Carbon of {fuel}").format(fuel=fuel), raw)
            for fuel, raw in document["carbon"].items()
        ),
        *((label, document["framing_fractions"][name]) for name, label in FRACTION_LABELS.items()),
        (_("Surface films"), defaults.films),
        *_moisture_facts(document),
    ]
    return [(label, text_of(raw) or "") for label, raw in facts]


def _moisture_facts(document: dict[str, Any]) -> list[tuple[str, Any]]:
    """Humidity indoors and the energy code, as far as they are given."""
    humidity, code = document.get("indoor_humidity", {}), document.get("energy_code", {})
    facts = [
        (_("Humidity class indoors"), humidity.get("humidity_class")),
        (_("Relative humidity indoors"), humidity.get("relative_humidity")),
        (_("Energy code"), code.get("edition")),
        *((LABELS[f"energy_code/{name}"], code.get(name)) for name in LIMITS),
    ]
    return [(label, raw) for label, raw in facts if raw is not None]


def form_context(
    region: RegionVersion, values: Mapping[str, str], faults: Mapping[str, str]
) -> dict[str, Any]:
    """The form of a region, as it stands or as typed."""
    return {
        "region": region,
        "place": place_of(region.defaults),
        "own_months": isinstance(region.defaults.climate, OwnClimate),
        "values": values,
        "faults": faults,
        "of_page": PAGE,
        "rows": fuel_rows(values),
        "films": FILMS,
        "fractions": FRACTION_LABELS,
        "humidity_classes": HUMIDITY_CLASSES,
        "edition_choices": [(each, each) for each in EDITIONS],
        "limits_open": _is_said(LIMIT_NAMES.values(), values, faults),
        "limits": _limit_labels(),
        "humidity_hint": HINTS[SHARES],
        "limit_hints": {field: HINTS[f"energy_code/{n}"] for n, field in LIMIT_NAMES.items()},
        "field_labels": field_labels(values),
        "basis_choices": BASIS_CHOICES,
    }


def _limit_labels() -> dict[str, str]:
    return {field: LABELS[f"energy_code/{name}"] for name, field in LIMIT_NAMES.items()}


def field_labels(values: Mapping[str, str]) -> dict[str, str]:
    """What the fields of a region's form are called where they are named away from it."""
    labels = {
        "name": _("Name"),
        "note": _("Note"),
        "iecc_zone": _("Climate zone, if not the station's"),
        "films": _("Surface films"),
        "heating": _("Heating set point"),
        "cooling": _("Cooling set point"),
        "humidity_class": _("Humidity class"),
        SHARES: _("Relative humidity"),
        "edition": _("Edition"),
    }
    for row in fuel_rows(values):
        fuel = values[f"fuel-{row}"] or _("another fuel")
        labels[f"fuel-{row}"] = _("Fuel {number}").format(number=row + 1)
        labels[f"price-{row}"] = _("Price, {fuel}").format(fuel=fuel)
        labels[f"carbon-{row}"] = _("Carbon, {fuel}").format(fuel=fuel)
    return labels | FRACTION_LABELS | _limit_labels()


def month_labels() -> dict[str, str]:
    """What the fields of twelve months are called."""
    labels = {
        "name": _("Place"),
        "latitude": _("Latitude"),
        "longitude": _("Longitude"),
        "elevation": _("Elevation"),
        "heating_design_temperature": _("Heating design temperature"),
        "cooling_design_temperature": _("Cooling design temperature"),
        "cooling_daily_range": _("Daily range of the hottest month"),
    }
    for column in COLUMNS:
        for at, month in enumerate(MONTHS):
            labels[f"{column.name}-{at}"] = f"{_(column.label)}, {_(month)}"
    return labels


def limits_in(region: RegionVersion, units: System) -> dict[str, str]:
    """What the region's edition asks in its zone, by field, as one would type it."""
    zone = zone_named(zone_of(region.defaults))
    code = region.defaults.energy_code
    edition = code.edition if code else CodeLimits().edition
    return {LIMIT_NAMES[name]: text for name, text in limits_as_typed(edition, zone, units).items()}


def _is_said(names: Iterable[str], values: Mapping[str, str], faults: Mapping[str, str]) -> bool:
    """Whether any of some fields holds something, or is refused."""
    return any(values.get(name) or name in faults for name in names)


def months_context(
    region: RegionVersion, values: Mapping[str, str], faults: Mapping[str, str]
) -> dict[str, Any]:
    """The form of twelve months."""
    return {
        "region": region,
        "values": values,
        "faults": faults,
        "of_page": PAGE,
        "columns": COLUMNS,
        "months": MONTHS,
        "field_labels": month_labels(),
        "basis_choices": BASIS_CHOICES,
    }


def stations_context(region: RegionVersion, search: str, fault: str | None) -> dict[str, Any]:
    """Stations found, the nearest to the region's place first."""
    place = place_of(region.defaults)
    found = [
        FoundStation(
            each,
            distance_km(place.latitude, place.longitude, each) if place else 0.0,
            each.elevation - place.elevation if place else 0.0,
        )
        for each in find_stations(search)
    ]
    return {
        "region": region,
        "place": place,
        "search": search,
        "found": sorted(found, key=lambda each: each.distance_km),
        "most": MOST_FOUND,
        "fault": fault,
    }


def refresh_context(**shown: Any) -> dict[str, Any]:
    """What a house would change into: see the template for the names."""
    empty: dict[str, Any] = {"differences": [], "notice": None}
    faults: list[Fault] = []
    return empty | {"faults": faults} | shown
