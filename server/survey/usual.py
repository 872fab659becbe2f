"""What is usual for a house of its year and shape, where a person has not said."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from server.files.house_file import Entry
from server.files.seeds import regions, station_climate
from server.survey.figures import Figure, system_of, typed
from server.survey.form import Foundation, Outline
from server.survey.leakage import guessed_leakage

YEAR_WHERE_UNKNOWN = 1950  # late enough for an empty bay, early enough to expect one
WINDOW_SHARE = 0.15  # of the floor area on the outside; common practice for a first guess

# Field of the outline: (before this year, construction), the last one open. Common practice.
_CONSTRUCTIONS: dict[str, tuple[tuple[int, str], ...]] = {
    "wall": (
        (1940, "plaster, empty studs, board sheathing, lap siding"),
        (1956, "gypsum lath and plaster, empty studs, fibreboard, lap siding"),
        (1980, "gypsum board, 2x4 R-11, fibreboard, lap siding"),
        (2006, "gypsum board, 2x4 R-13, oriented strand board, vinyl siding"),
        (9999, "gypsum board, 2x6 R-19, oriented strand board, fibre cement"),
    ),
    "ceiling": (
        (1925, "attic floor, plaster, open joists, empty"),
        (1956, "attic floor, plaster, 3 in loose fill"),
        (1970, "attic floor, gypsum board, 6 in loose fill"),
        (1985, "attic floor, gypsum board, R-19 batts"),
        (2010, "attic floor, gypsum board, R-30 loose fill"),
        (9999, "attic floor, gypsum board, R-49 loose fill"),
    ),
    "sloped_ceiling": (
        (1950, "sloped ceiling, plaster, empty rafters, asphalt shingles"),
        (1980, "sloped ceiling, gypsum board, 2x6 R-11 batts, asphalt shingles"),
        (9999, "cathedral ceiling, gypsum board, 2x10 R-30 batts, vented, asphalt shingles"),
    ),
    "attic_roof": (
        (1960, "attic roof, boards, asphalt shingles"),
        (9999, "attic roof, plywood, asphalt shingles"),
    ),
    "attic_gable": (
        (1960, "attic gable, boards and lap siding"),
        (9999, "attic gable, oriented strand board and vinyl siding"),
    ),
    "floor": (
        (1960, "floor, hardwood over boards"),
        (1980, "floor, carpet over plywood"),
        (9999, "floor, carpet over plywood, R-19 batts below"),
    ),
    "slab": ((1950, "slab 4 in, bare"), (9999, "slab 4 in, carpet")),
    "rim_joist": (
        (1960, "rim joist, boards and lap siding"),
        (9999, "rim joist, oriented strand board and siding"),
    ),
    "foundation_wall": (
        (1930, "foundation wall, brick 12 in"),
        (1990, "foundation wall, concrete block 8 in"),
        (9999, "foundation wall, poured concrete 8 in"),
    ),
    "window": (
        (1970, "window, single glass with storm, wood"),
        (1996, "window, double clear, wood"),
        (9999, "window, double low-e, vinyl"),
    ),
    "door": ((1980, "door, solid wood"), (9999, "door, insulated steel")),
}
_EFFICIENCY = {"natural gas": 0.80, "propane": 0.80, "heating oil": 0.80, "electricity": 1.0}
_FOUNDATION = {"basement": ("7 ft", "5.5 ft"), "crawlspace": ("3 ft", "1 ft")}  # height, depth
_FIRST_YEAR_OF_SLABS = 1960
_WARM_ZONES = ("1", "2")
_COLD_ZONES = ("5", "6", "7", "8")


def usual_construction(outline: Outline, field: str) -> str:
    """Name of the construction a house of the year usually has in a field of the outline."""
    if field == "foundation_floor":
        if outline.foundation == "crawlspace":
            return "crawlspace ground, bare"
        return "basement floor, concrete 3 in"
    year = outline.year_built or YEAR_WHERE_UNKNOWN
    return next(name for before, name in _CONSTRUCTIONS[field] if year < before)


def usual_pitch(outline: Outline) -> Entry:
    """Steep enough to live under where there is a half storey."""
    return typed("angle", "45 deg" if outline.storeys % 1 else "30 deg", "default")


def usual_foundation_height(outline: Outline) -> Entry:
    """Of a basement or crawlspace."""
    return typed("thickness", _FOUNDATION[outline.foundation][0], "guess")


def usual_foundation_depth(outline: Outline) -> Entry:
    """Of a basement or crawlspace, below grade."""
    return typed("thickness", _FOUNDATION[outline.foundation][1], "guess")


def usual_window_area(outline: Outline) -> Entry:
    """A share of the outer floor area, every storey counted."""
    plan = Figure.of(outline.length) * Figure.of(outline.width)
    area = Figure((plan * (outline.storeys * WINDOW_SHARE)).value, measured=False)
    return area.entry("area", system_of(outline.length))


def usual_efficiency(outline: Outline) -> Entry:
    """Of a plain heater of the fuel; a heat pump's is above 1 and has to be typed."""
    return typed(None, _EFFICIENCY[outline.fuel], "guess")


def usual_leakage(outline: Outline) -> Entry:
    """Guessed from the year."""
    return guessed_leakage(outline.year_built)


def default_outline(
    name: str, region: str, year_built: int | None, zone: str | None = None
) -> Outline:
    """An outline to fill a form with: what the year and the region's zone suggest.

    zone: None takes that of the seed region of this key.

    What follows from other answers (pitch, window area, foundation sizes, efficiency, leakage)
    stays open, so that it follows them when they change.
    """
    year = year_built or YEAR_WHERE_UNKNOWN
    old = year < 1940
    outline = Outline(
        name=name,
        region=region,
        year_built=year_built,
        storeys=2.0 if old or year >= 1985 else 1.0,
        length=typed("thickness", "30 ft" if old else "40 ft", "guess"),
        ceiling_height=typed("thickness", "8.5 ft" if old else "8 ft", "default"),
        foundation=_usual_foundation(zone or _zone_of_seed(region), year),
    )
    names: dict[str, Any] = {field: usual_construction(outline, field) for field in _CONSTRUCTIONS}
    return replace(outline, **names)


def _zone_of_seed(region: str) -> str:
    known = regions().get(region)
    climate = station_climate(known.station) if known else None
    return (climate.iecc_zone or "") if climate else ""


def _usual_foundation(zone: str, year: int) -> Foundation:
    """Basements where frost goes deep, crawlspaces and later slabs where it does not."""
    if zone.startswith(_COLD_ZONES):
        return "basement"
    if zone.startswith(_WARM_ZONES) and year >= _FIRST_YEAR_OF_SLABS:
        return "slab"
    return "crawlspace"
