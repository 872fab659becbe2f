"""The climate stations of the seed data: found by name, told apart by where they lie."""

from __future__ import annotations

import csv
import functools
import math
import unicodedata
from dataclasses import dataclass

from server.files.seeds import SEED_DATA, regions

MOST_FOUND = 50
EARTH_RADIUS_KM = 6371.0
"""Mean radius, km."""

STATE_NAMES = {
    code: name
    for code, _separator, name in (
        line.partition(" ")
        for line in """\
AK Alaska|AL Alabama|AR Arkansas|AZ Arizona|CA California|CO Colorado|CT Connecticut
DC District of Columbia|DE Delaware|FL Florida|GA Georgia|GU Guam|HI Hawaii|IA Iowa|ID Idaho
IL Illinois|IN Indiana|KS Kansas|KY Kentucky|LA Louisiana|MA Massachusetts|MD Maryland|ME Maine
MI Michigan|MN Minnesota|MO Missouri|MS Mississippi|MT Montana|NC North Carolina|ND North Dakota
NE Nebraska|NH New Hampshire|NJ New Jersey|NM New Mexico|NV Nevada|NY New York|OH Ohio
OK Oklahoma|OR Oregon|PA Pennsylvania|PR Puerto Rico|RI Rhode Island|SC South Carolina
SD South Dakota|TN Tennessee|TX Texas|UT Utah|VA Virginia|VI Virgin Islands|VT Vermont
WA Washington|WI Wisconsin|WV West Virginia|WY Wyoming""".replace("\n", "|").split("|")
    )
}


@dataclass(frozen=True, slots=True)
class Station:
    """A station. Degrees north and east, elevation in m; zone None where it is not known."""

    id: str
    name: str
    state: str
    latitude: float
    longitude: float
    elevation: float
    zone: str | None

    @property
    def words(self) -> str:
        """What a search looks through."""
        state = STATE_NAMES.get(self.state, "")
        towns = _region_names().get(self.id, "")  # many a station is named after an airport only
        return _plain(f"{self.name} {self.state} {state} {self.id} {towns}")


@functools.cache
def stations() -> dict[str, Station]:
    """Identifier to station."""
    path = SEED_DATA / "climate" / "stations.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return {
            row["station"]: Station(
                row["station"],
                row["name"],
                row["state"],
                float(row["latitude_deg"]),
                float(row["longitude_deg"]),
                float(row["elevation_m"]),
                row["iecc_zone"] or None,
            )
            for row in csv.DictReader(file)
        }


@functools.cache
def _region_names() -> dict[str, str]:
    """Identifier of a region's station to the words of the region's name."""
    return {
        each.station: each.name.replace("(", " ").replace(")", " ") for each in regions().values()
    }


def find_stations(words: str) -> list[Station]:
    """Stations whose place, state or identifier begins words with all those asked for, by name.

    A two-letter word is a state's code where it is written in capitals. At most MOST_FOUND; none
    where nothing is asked for.
    """
    asked = words.split()[:10]
    if not asked:
        return []
    found = [each for each in stations().values() if all(_answers(each, word) for word in asked)]
    return sorted(found, key=lambda each: (each.name, each.state))[:MOST_FOUND]


def _answers(station: Station, word: str) -> bool:
    if word.upper() == word and word in STATE_NAMES:
        return station.state == word
    plain = _plain(word).strip(",.")
    return any(each.startswith(plain) for each in station.words.split())


def _plain(text: str) -> str:
    """Small letters without accents."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in apart if not unicodedata.combining(letter))


def distance_km(latitude: float, longitude: float, station: Station) -> float:
    """Great-circle distance from a place to a station, km, on a sphere of the mean radius.

    hav(d/R) = hav(φ2 - φ1) + cos φ1 cos φ2 hav(λ2 - λ1), hav(x) = sin²(x/2).
    Source: the haversine formula, from memory.
    """
    phi, phi_station = math.radians(latitude), math.radians(station.latitude)
    north = (phi_station - phi) / 2
    east = math.radians(station.longitude - longitude) / 2
    haversine = math.sin(north) ** 2 + math.cos(phi) * math.cos(phi_station) * math.sin(east) ** 2
    return 2 * EARTH_RADIUS_KM * math.asin(math.sqrt(min(1.0, haversine)))
