"""Layers that many cases of moisture share."""

from tests.core.findings.cases import GYPSUM
from tests.recipes.houses import SIDING, bays, part, solid

GAP = {"air_layer": "well ventilated", "thickness": "3/4 in"}
FOIL = solid("aluminium foil facing", "0.05 mm")
FILM = solid("polyethylene film", "0.15 mm")
KRAFT = solid("kraft paper facing", "0.15 mm")
STRAND = solid("oriented strand board", "7/16 in")
BATT = bays("mineral wool batt")
WOOL_BOARD = solid("rigid mineral wool board", "2 in")
FOIL_FOAM = solid("polyisocyanurate, foil faced, aged", "2 in")

OPEN_BOARD = [GYPSUM, BATT, STRAND, WOOL_BOARD, GAP, SIDING]
FOIL_OUTSIDE = [GYPSUM, BATT, STRAND, FOIL, SIDING]
PLAIN = [GYPSUM, BATT, STRAND, SIDING]


def wall(layers, name="wall", **keys):
    return part(name, "wall", ("indoors", "outdoors"), layers, **keys)


def roof(layers, name="roof", **keys):
    return part(name, "roof", ("indoors", "outdoors"), layers, **keys)


def climate(region):
    return {"region": region}


ZONES = {
    "1A": "south-florida",
    "2A": "gulf-coast-tx",
    "3A": "north-georgia",
    "4A": "piedmont-nc",
    "4C": "puget-sound-wa",
    "5A": "northern-illinois",
    "6A": "twin-cities-mn",
    "7": "lake-superior-mn",
}
