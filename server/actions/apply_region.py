"""Put a region's defaults into a house, or say what that would change."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

from server.actions.change_house import Changed, change_house, checked
from server.files.building import build_survey
from server.files.differences import Difference, differences
from server.files.house_file import HouseFile, StationClimate
from server.files.keyed import Document
from server.regions.defaults import RegionDefaults
from server.storage.house_rows import with_keys
from server.storage.houses import Houses
from server.storage.regions import NoSuchRegion, Regions, RegionVersion
from server.units import read_quantity

KEPT = ("measured", "document")
FURRING_DEPTH = 0.051  # m: no stud, joist or rafter is this thin, all furring is
_WORDS = ("name", "station", "iecc_zone")  # of a climate, no quantities
_PLAIN = ("humidity_class", "edition")  # no quantities, so nobody says how they are known
_FRACTION_OF = {
    "wall": "walls",
    "basement wall": "walls",
    "roof": "roofs_and_ceilings",
    "ceiling": "roofs_and_ceilings",
    "floor": "floors",
}


def with_region(document: Document, key: str, version: int, defaults: RegionDefaults) -> Document:
    """The document with a region's defaults; the one given stays as it is.

    What is put in has the basis “default”; values that were measured or come from a document stay.
    """
    made = copy.deepcopy(document)
    given = defaults.as_written()
    if not _holds_kept(made.get("climate")):
        made["climate"] = _climate(given)
    for name in ("set_points", "prices", "carbon"):
        made[name] = _merged(made.get(name, {}), given[name])
    if "indoor_humidity" in given and not _holds_kept(made.get("indoor_humidity")):
        made["indoor_humidity"] = _parts_default(given["indoor_humidity"])
    if "energy_code" in given:
        made["energy_code"] = _energy_code(made.get("energy_code", {}), given["energy_code"])
    if made.get("films", "ISO 6946") != defaults.films:
        made["films"] = defaults.films
    for framed, kind in _framing(made):
        framed["fraction"] = _as_default(given["framing_fractions"][_FRACTION_OF[kind]])
    if "defaults" in HouseFile.model_fields:
        made["defaults"] = {"region": key, "version": version}
    return made


def preview(
    document: Document, key: str, version: int, defaults: RegionDefaults
) -> list[Difference]:
    """What applying the defaults would change. Raises: BadFile."""
    before = with_keys(checked(document)).as_stored()
    after = with_keys(checked(with_region(before, key, version, defaults)))
    build_survey(after)
    return differences(before, after.as_stored())


def apply_region(houses: Houses, key: str, region: RegionVersion, by: str) -> Changed:
    """Put a region's defaults into a stored house. Raises: NoSuchHouse, BadFile."""
    return change_house(
        houses,
        key,
        by,
        lambda document: with_region(document, region.key, region.version, region.defaults),
    )


def begun_in(house: HouseFile, region: RegionVersion) -> HouseFile:
    """A house just begun, with its region's defaults. Raises: BadFile."""
    return checked(with_region(house.as_stored(), region.key, region.version, region.defaults))


def region_of(document: Document) -> tuple[str | None, int | None]:
    """Key and version of the region whose defaults a house has, as far as it remembers."""
    remembered = document.get("defaults", {})
    key = remembered.get("region") or document.get("climate", {}).get("region")
    return key, remembered.get("version")


def newer_region(regions: Regions, document: Document) -> RegionVersion | None:
    """The newest defaults of a house's region where it remembers older ones; else None."""
    key, version = region_of(document)
    if key is None or version is None:
        return None
    try:
        newest = regions.load(key)
    except NoSuchRegion:
        return None
    return newest if newest.version > version else None


def _climate(given: Document) -> Document:
    climate = {
        name: value if name in _WORDS else _all_default(value)
        for name, value in given["climate"].items()
    }
    zone = given.get("iecc_zone")
    if zone and ("station" not in climate or "iecc_zone" in StationClimate.model_fields):
        climate["iecc_zone"] = zone
    return climate


def _parts_default(given: Document) -> Document:
    return {name: v if name in _PLAIN else _all_default(v) for name, v in given.items()}


def _energy_code(present: Document, given: Document) -> Document:
    """The region's edition and limits; a house's own limits stay where they are known better."""
    kept = {name: value for name, value in present.items() if _basis(value) in KEPT}
    return present | _parts_default(given) | kept


def _merged(present: Document, given: Document) -> Document:
    """Present values with the given ones in their place, but for those that are known better."""
    new = {name: _as_default(value) for name, value in given.items()}
    kept = {name: value for name, value in present.items() if _basis(value) in KEPT}
    return present | new | kept


def _as_default(value: Any) -> Document:
    typed = value["value"] if isinstance(value, dict) else value
    return {"value": typed, "basis": "default"}


def _all_default(value: Any) -> Any:
    return list(map(_as_default, value)) if isinstance(value, list) else _as_default(value)


def _basis(value: Any) -> str | None:
    return value.get("basis") if isinstance(value, dict) else None


def _holds_kept(part: Any) -> bool:
    """Whether any value within was measured or comes from a document."""
    if isinstance(part, dict):
        return _basis(part) in KEPT or any(map(_holds_kept, part.values()))
    return isinstance(part, list) and any(map(_holds_kept, part))


def _framing(document: Document) -> Iterator[tuple[Document, str]]:
    """Framed layers of default fraction, each with the kind of the first part built so.

    A fraction whose basis is not said belongs to what was surveyed, and furring has its own.
    """
    kinds: dict[str, str] = {}
    for part in document.get("components", []):
        if part.get("kind") in _FRACTION_OF and "assembly" in part:
            kinds.setdefault(part["assembly"], part["kind"])
    for name, kind in kinds.items():
        for layer in document.get("assemblies", {}).get(name, {}).get("layers", []):
            framed = layer.get("framed")
            if framed and _basis(framed["fraction"]) == "default" and _is_deep(framed["depth"]):
                yield framed, kind


def _is_deep(depth: Any) -> bool:
    typed = depth["value"] if isinstance(depth, dict) else depth
    return read_quantity(typed, "thickness") > FURRING_DEPTH
