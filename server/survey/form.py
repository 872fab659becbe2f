"""The short form of a house, as it was answered."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from server.files.house_file import Entry

FACES = ("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest")
STOREYS = (1.0, 1.5, 2.0, 2.5, 3.0)
FUELS = ("natural gas", "propane", "heating oil", "electricity")

Foundation = Literal["basement", "crawlspace", "slab"]
Attic = Literal["vented attic", "sloped ceiling"]

FOUNDATIONS: tuple[Foundation, ...] = ("basement", "crawlspace", "slab")
ATTICS: tuple[Attic, ...] = ("vented attic", "sloped ceiling")

_FOOT = 0.3048  # m; written out, so that importing this loads no units
LENGTH = Entry("36 ft", 36 * _FOOT, "guess")
WIDTH = Entry("26 ft", 26 * _FOOT, "guess")
CEILING_HEIGHT = Entry("8 ft", 8 * _FOOT, "default")
FLOOR_THICKNESS = Entry("10 in", 10 * _FOOT / 12, "default")


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """What a person answers of a house before surveying it part by part.

    region: key of a region; who begins the house puts its climate in. faces: where the front
    looks; right and left are seen from the street. length and width: outer, east-west and
    north-south; a house set diagonally counts as turned back by 45 degrees, so that one facing
    north-east counts as facing north.
    storeys: a half one lies under the roof. ceiling_height: clear. floor_thickness: from ceiling
    to floor, joists and all. attic: what stands over the uppermost rooms. foundation_height: of
    the basement or crawlspace, up to the underside of the joists; foundation_depth: the part of
    it below grade. Constructions go by name; one the house has no use for is left aside.
    window_area: of the whole house. ducts: whether air ducts run outside the rooms.

    None takes what is usual: for the year, or for the other answers.
    """

    name: str
    region: str
    year_built: int | None = None
    faces: str = "south"
    length: Entry = LENGTH
    width: Entry = WIDTH
    storeys: float = 1.0
    ceiling_height: Entry = CEILING_HEIGHT
    floor_thickness: Entry = FLOOR_THICKNESS
    wall_thickness: Entry | None = None
    roof_pitch: Entry | None = None
    bedrooms: int = 3
    foundation: Foundation = "basement"
    foundation_height: Entry | None = None
    foundation_depth: Entry | None = None
    attic: Attic = "vented attic"
    window_area: Entry | None = None
    wall: str | None = None
    ceiling: str | None = None
    sloped_ceiling: str | None = None
    attic_roof: str | None = None
    attic_gable: str | None = None
    floor: str | None = None
    slab: str | None = None
    rim_joist: str | None = None
    foundation_wall: str | None = None
    foundation_floor: str | None = None
    window: str | None = None
    door: str | None = None
    ach50: Entry | None = None
    fuel: str = "natural gas"
    heating_efficiency: Entry | None = None
    ducts: bool = True
    cooling: bool = True
