"""US ZIP codes: where each lies, its zone by the county map, and the stations near it."""

from __future__ import annotations

import csv
import functools
import gzip
import re
from dataclasses import dataclass

from server.files.seeds import SEED_DATA
from server.regions.stations import Station, distance_km, stations

MOST_NEAR = 8
# What a metre up or down counts like: the standard atmosphere's 6.5 K/km against some 1.3 K for a
# hundred kilometres north (our judgement).
KM_FOR_A_METRE = 0.5
_ZIP = re.compile(r"([0-9]{5})(-[0-9]{4})?", re.ASCII)


@dataclass(frozen=True, slots=True)
class ZipPlace:
    """The middle of a ZIP code's area. Degrees north and east; zone None where unknown."""

    zip: str
    latitude: float
    longitude: float
    zone: str | None


@dataclass(frozen=True, slots=True)
class NearStation:
    """A station near a place: km away; m above it, None where the place's height is not known."""

    station: Station
    distance_km: float
    above: float | None


class NoSuchZip(Exception):
    """What was typed is no ZIP code, or none whose place is known."""

    def __init__(self, typed: str, *, malformed: bool) -> None:
        self.typed, self.malformed = typed, malformed
        super().__init__(typed)


@functools.cache
def _places() -> dict[str, ZipPlace]:
    path = SEED_DATA / "climate" / "zip_places.csv.gz"
    with gzip.open(path, "rt", encoding="utf-8", newline="") as file:
        return {
            row["zip"]: ZipPlace(
                row["zip"],
                float(row["latitude_deg"]),
                float(row["longitude_deg"]),
                row["iecc_zone"] or None,
            )
            for row in csv.DictReader(file)
        }


def zip_place(typed: str) -> ZipPlace:
    """The place of a ZIP code; its four digits more are passed over. Raises: NoSuchZip."""
    match = _ZIP.fullmatch(typed.strip())
    if match is None:
        raise NoSuchZip(typed, malformed=True)
    found = _places().get(match[1])
    if found is None:
        raise NoSuchZip(typed, malformed=False)
    return found


def stations_near(place: ZipPlace, elevation: float | None = None) -> list[NearStation]:
    """The stations nearest to a place, the likest first.

    elevation m: of the place. Where it is known, a difference of height counts as distance does.
    """
    near = []
    for station in stations().values():
        away = distance_km(place.latitude, place.longitude, station)
        above = None if elevation is None else station.elevation - elevation
        near.append(NearStation(station, away, above))
    return sorted(near, key=_unlike)[:MOST_NEAR]


def _unlike(near: NearStation) -> float:
    return near.distance_km + KM_FOR_A_METRE * abs(near.above or 0.0)
