"""A house from the short form, worked out by hand."""

import json
import math
from dataclasses import replace

import pytest

from server.core.evaluate import evaluate
from server.files.building import read_project
from server.files.house_file import Typed
from server.survey.constructions import constructions
from server.survey.form import FACES
from server.survey.outline import Outline, default_outline, house_from_outline

INCH, FOOT = 0.0254, 0.3048
SIDES = ("front", "right", "back", "left")


def entry(kind, text, basis="measured"):
    return Typed(kind).read({"value": text, "basis": basis})


def length(text, basis="measured"):
    return entry("thickness", text, basis)


# Inside the walls 39 ft by 27 ft: plan 1053 ft2, round it 132 ft.
MEASURED = Outline(
    name="measured",
    region="piedmont-nc",
    year_built=1952,
    faces="north",
    length=length("40 ft"),
    width=length("28 ft"),
    wall_thickness=length("6 in"),
    ceiling_height=length("8 ft"),
    floor_thickness=length("10 in"),
    roof_pitch=entry("angle", "30 deg"),
    foundation_height=length("7 ft"),
    foundation_depth=length("6' 0\""),
    window_area=entry("area", "150 ft^2"),
)
# The main block of the demo house: 30 ft by 26 ft inside, 45 degrees, 13 ft to the ridge.
HALF_STOREY = replace(
    MEASURED,
    length=length("31 ft"),
    width=length("27 ft"),
    storeys=1.5,
    ceiling_height=length("8 ft 3 in"),
    roof_pitch=entry("angle", "45 deg"),
)


def written(outline):
    """The house as a document, components by name; it has been built."""
    document = house_from_outline(outline).as_written()
    read_project(json.dumps(document))
    return document | {"components": {each["name"]: each for each in document["components"]}}


def areas(outline):
    return {name: part["area"]["value"] for name, part in written(outline)["components"].items()}


def square_feet(outline):
    return {name: float(area.removesuffix(" ft^2")) for name, area in areas(outline).items()}


def test_areas_of_a_one_storey_house():
    # walls 39 x 8 = 312 and 27 x 8 = 216, 1056 in all; of each 150/1056 is window; door 20
    assert areas(MEASURED) == {
        "front wall": "247.7 ft^2",  # 312 - 44.32 - 20
        "front windows": "44.3 ft^2",
        "front door": "20 ft^2",
        "right wall": "185.3 ft^2",  # 216 - 30.68
        "right windows": "30.7 ft^2",
        "back wall": "267.7 ft^2",
        "back windows": "44.3 ft^2",
        "left wall": "185.3 ft^2",
        "left windows": "30.7 ft^2",
        "ceiling": "1053 ft^2",
        "front attic roof": "607.9 ft^2",  # 39 x 13.5/cos 30
        "back attic roof": "607.9 ft^2",
        "right attic gable": "105.2 ft^2",  # 27 x 27/4 x tan 30
        "left attic gable": "105.2 ft^2",
        "floor over the basement": "1053 ft^2",
        "basement wall below grade": "792 ft^2",  # 132 x 6
        "basement floor": "1053 ft^2",
        "rim joist": "110 ft^2",  # 132 x 10/12
        "basement wall above grade": "132 ft^2",  # 132 x 1
    }


def test_volumes_of_a_one_storey_house():
    spaces = written(MEASURED)["spaces"]
    volumes = {name: space["volume"]["value"] for name, space in spaces.items()}
    assert volumes == {"indoors": "8424 ft^3", "attic": "4104 ft^3", "basement": "7371 ft^3"}
    assert written(MEASURED)["floor_area"] == {"value": "1053 ft^2", "basis": "measured"}


def test_a_half_storey_is_the_main_block_of_the_demo_house():
    # flat strip 26 - 2 x 8.25 = 9.5 ft; gable 169 = 146.4375 before rooms + 22.5625 of the attic
    found = square_feet(replace(HALF_STOREY, window_area=entry("area", "0 ft^2")))
    side = 26 * (8.25 + 10 / 12) + 146.4375
    assert found["right wall"] == pytest.approx(side, abs=0.05)
    assert found["front wall"] == pytest.approx(30 * (8.25 + 10 / 12) - 20, abs=0.05)
    assert found["ceiling"] == 285  # 30 x 9.5
    assert found["front sloped ceiling"] == pytest.approx(30 * 8.25 * math.sqrt(2), abs=0.05)
    assert found["front attic roof"] == pytest.approx(30 * 4.75 * math.sqrt(2), abs=0.05)
    plane = found["front sloped ceiling"] + found["front attic roof"]
    assert plane == pytest.approx(551.54, abs=0.1)  # the demo house's own closing check
    document = written(HALF_STOREY)
    assert document["spaces"]["indoors"]["volume"]["value"] == "10828 ft^3"  # 6435 + 30 x 146.44
    assert document["spaces"]["attic"]["volume"]["value"] == "677 ft^3"  # 30 x 22.5625
    assert document["floor_area"]["value"] == "1260 ft^2"  # 780 + 30 x (26 - 2 x 5)


def test_rooms_open_to_the_ridge():
    outline = replace(MEASURED, attic="sloped ceiling", foundation="slab")
    document, found = written(outline), square_feet(outline)
    assert "attic" not in document["spaces"]
    assert "ceiling" not in found
    assert found["front sloped ceiling"] == found["back sloped ceiling"] == 607.9
    assert found["right wall"] + found["right windows"] == pytest.approx(216 + 105.22, abs=0.1)
    assert document["spaces"]["indoors"]["volume"]["value"] == "12528 ft^3"  # 8424 + 4103.7
    assert "ducts_in" not in document["heating"]


def test_two_storeys_count_the_floor_between_them_in_the_wall():
    outline = replace(MEASURED, storeys=2.0, window_area=entry("area", "0 ft^2"))
    document, found = written(outline), square_feet(outline)
    assert found["back wall"] == pytest.approx(39 * (16 + 10 / 12), abs=0.05)
    assert document["spaces"]["indoors"]["volume"]["value"] == "16848 ft^3"
    assert document["floor_area"]["value"] == "2106 ft^2"
    assert not any("windows" in name for name in found)


def test_walls_and_openings_make_the_gross_wall():
    for outline, gross in ((MEASURED, 1056), (HALF_STOREY, 112 * (8.25 + 10 / 12) + 2 * 146.4375)):
        found = square_feet(outline)
        walls = sum(
            area
            for name, area in found.items()
            if name.startswith(SIDES) and name.endswith((" wall", " windows", "door"))
        )
        assert walls == pytest.approx(gross, abs=0.3)


@pytest.mark.parametrize("attic", ["vented attic", "sloped ceiling"])
@pytest.mark.parametrize("storeys", [1.0, 1.5, 2.0, 2.5])
def test_roof_planes_make_the_plan_over_the_cosine(storeys, attic):
    outline = replace(HALF_STOREY, storeys=storeys, attic=attic)
    found = square_feet(outline)
    planes = sum(a for n, a in found.items() if n.endswith(("attic roof", "sloped ceiling")))
    assert planes == pytest.approx(780 / math.cos(math.radians(45)), abs=0.3)


def test_a_slab_has_the_perimeter_of_the_plan():
    slab = written(replace(MEASURED, foundation="slab"))["components"]["slab"]
    assert slab["area"] == {"value": "1053 ft^2", "basis": "measured"}
    assert slab["exposed_perimeter"] == {"value": "132 ft", "basis": "measured"}
    assert slab["wall_thickness"] == {"value": "6 in", "basis": "measured"}


def test_a_crawlspace_is_a_vented_buffer_on_the_ground():
    outline = replace(
        MEASURED, foundation="crawlspace", foundation_height=None, foundation_depth=None
    )
    document = written(outline)
    space = document["spaces"]["crawlspace"]
    assert space["volume"]["value"] == "3159 ft^3"  # 1053 x 3
    assert space["air_changes"] == {"value": "3 1/hour", "basis": "guess"}
    parts = document["components"]
    assert parts["crawlspace wall below grade"]["area"]["value"] == "132 ft^2"
    assert parts["crawlspace wall above grade"]["area"]["value"] == "264 ft^2"
    assert parts["crawlspace floor"]["to"] == "ground"
    assert parts["floor over the crawlspace"]["to"] == "crawlspace"
    assert parts["floor over the crawlspace"]["reached_from"] == "outside"


def test_a_foundation_wholly_below_grade_has_no_wall_above():
    parts = written(replace(MEASURED, foundation_depth=length("7 ft")))["components"]
    assert "basement wall above grade" not in parts
    assert "rim joist" in parts


def test_what_was_typed_stays():
    document = written(replace(MEASURED, ach50=Typed(None).read({"value": 9, "basis": "document"})))
    floor = document["components"]["basement floor"]
    assert floor["depth_below_grade"] == {"value": "6' 0\"", "basis": "measured"}
    assert document["components"]["front attic roof"]["tilt"]["value"] == "30 deg"
    assert document["air"]["ach50"] == {"value": 9, "basis": "document"}


WATCHED = {"ceiling", "front attic roof", "basement wall below grade"}
BASES = [
    ("all measured", {}, WATCHED),
    (
        "pitch guessed",
        {"roof_pitch": entry("angle", "30 deg", "guess")},
        WATCHED - {"front attic roof"},
    ),
    (
        "depth from a drawing",
        {"foundation_depth": length("6 ft", "document")},
        WATCHED - {"basement wall below grade"},
    ),
    ("walls not measured", {"wall_thickness": None}, WATCHED),
    ("length from a drawing", {"length": length("40 ft", "document")}, set()),
]


@pytest.mark.parametrize(
    ("changes", "measured"), [case[1:] for case in BASES], ids=[case[0] for case in BASES]
)
def test_measured_only_if_all_behind_it_was(changes, measured):
    parts = written(replace(MEASURED, **changes))["components"]
    bases = {name: parts[name]["area"]["basis"] for name in WATCHED}
    assert bases == {name: "measured" if name in measured else "guess" for name in WATCHED}


def test_how_windows_are_spread_is_a_guess():
    parts = written(MEASURED)["components"]
    assert {parts[f"{side} windows"]["area"]["basis"] for side in SIDES} == {"guess"}
    assert {parts[f"{side} wall"]["area"]["basis"] for side in SIDES} == {"guess"}


def test_metres_stay_metres():
    outline = replace(
        MEASURED,
        length=length("12 m"),
        width=length("850 cm"),
        wall_thickness=length("150 mm"),
        ceiling_height=length("2.4 m"),
    )
    document = written(outline)
    assert document["components"]["ceiling"]["area"]["value"] == "95.94 m^2"  # 11.7 x 8.2
    assert document["spaces"]["indoors"]["volume"]["value"] == "230.3 m^3"
    assert document["junctions"][1]["length"]["value"] == "9.6 m"  # four corners of 2.4 m
    usual = written(replace(outline, wall_thickness=None))["components"]
    assert usual["ceiling"]["area"]["value"].endswith(" m^2")


# Facing north, one looks south at it from the street: the right hand is the west.
COMPASS = dict(zip(FACES, range(0, 360, 45), strict=True))


@pytest.mark.parametrize("faces", FACES)
def test_eight_orientations(faces):
    parts = written(replace(MEASURED, faces=faces))["components"]
    azimuths = {side: float(parts[f"{side} wall"]["azimuth"].split()[0]) for side in SIDES}
    front = COMPASS[faces]
    assert azimuths == {
        "front": front,
        "right": (front - 90) % 360,
        "back": (front + 180) % 360,
        "left": (front + 90) % 360,
    }
    assert parts["front windows"]["azimuth"] == parts["front wall"]["azimuth"]
    assert parts["right attic gable"]["azimuth"] == parts["right wall"]["azimuth"]
    assert parts["back attic roof"]["azimuth"] == parts["back wall"]["azimuth"]
    # the length runs east-west: it is the front of a house that faces north or south
    along = {"north", "northeast", "south", "southwest"}
    gable = parts["right attic gable"]["area"]["value"]
    assert gable == ("105.2 ft^2" if faces in along else "219.5 ft^2")  # 39 x 39/4 x tan 30


def test_facing_north_the_right_hand_is_west():
    parts = written(replace(MEASURED, faces="north"))["components"]
    assert parts["right wall"]["azimuth"] == "270 deg"


def test_heat_loss_by_hand():
    """No buffer and no wall openings but the door: every figure can be worked out on paper."""
    outline = replace(
        MEASURED,
        foundation="slab",
        attic="sloped ceiling",
        window_area=entry("area", "0 ft^2"),
        wall="plaster, empty studs, board sheathing, lap siding",
        sloped_ceiling="sloped ceiling, plaster, empty rafters, asphalt shingles",
        door="door, solid wood",
    )
    house = read_project(json.dumps(house_from_outline(outline).as_written())).house

    plaster, boards = 0.875 * INCH / 0.3, 0.75 * INCH / 0.13
    wall = combined(
        0.25, 3.625 * INCH / 0.13, 0.18, 0.13 + plaster + boards + 0.5 * INCH / 0.115 + 0.04
    )
    roofing = 0.04 * INCH / 0.23 + 0.5 * INCH / 0.154
    roof = combined(0.1, 5.5 * INCH / 0.13, 0.16, 0.10 + plaster + boards + roofing + 0.04)
    walls = 1056 + 2 * 105.222 - 20
    parts = (walls / wall + 2 * 607.95 / roof) * FOOT**2 + 20 * FOOT**2 * 0.46 * 5.678263
    # door 2 x (3 + 6 2/3); corners 4 x 8; slab edge 132; eaves 2 x 39; rakes 4 x 13.5/cos 30
    edges = 19.33 * 0.05 + 32 * 0.10 + 132 * 0.20 + 78 * 0.05 + 62.35 * 0.06
    assert evaluate(house).to_outdoors == pytest.approx(parts + edges * FOOT, rel=1e-3)


def combined(fraction, framing, cavity, rest):
    """Mean of both limits, ISO 6946, m2 K/W."""
    upper = 1 / (fraction / (rest + framing) + (1 - fraction) / (rest + cavity))
    lower = rest + 1 / (fraction / framing + (1 - fraction) / cavity)
    return (upper + lower) / 2


def test_an_old_house_loses_far_more_than_a_new_one():
    def load(year):
        outline = replace(
            default_outline("a", "northern-illinois", year),
            length=length("40 ft"),
            storeys=1.0,
            ceiling_height=length("8 ft"),
            foundation="basement",
        )
        project = read_project(json.dumps(house_from_outline(outline).as_written()))
        return project.compare().as_found.heating_load_kwh

    old, middling, new = load(1930), load(1985), load(2020)
    assert old > 1.5 * middling > 1.5 * new
    # 100 m2 of plan in a cold climate, common practice: some 250 and some 80 kWh/m2 a year
    assert 150 < old / 97 < 450
    assert 40 < new / 97 < 150


@pytest.mark.parametrize("year", [None, 1890, 1926, 1938, 1947, 1955, 1968, 1979, 1999, 2008, 2024])
@pytest.mark.parametrize("region", ["south-florida", "piedmont-nc", "twin-cities-mn"])
def test_a_default_outline_builds(region, year):
    outline = default_outline("default", region, year)
    document = written(outline)
    assert document["climate"] == {"region": region}
    assert document.get("year_built") == year
    assert outline.window_area is None
    assert outline.roof_pitch is None
    assert outline.wall in constructions()


def test_foundations_follow_the_climate():
    assert default_outline("a", "south-florida", 1990).foundation == "slab"
    assert default_outline("a", "south-florida", 1930).foundation == "crawlspace"
    assert default_outline("a", "twin-cities-mn", 1990).foundation == "basement"


def test_houses_share_no_assembly():
    first, second = house_from_outline(MEASURED), house_from_outline(MEASURED)
    for name, assembly in first.assemblies.items():
        assert assembly is not second.assemblies[name]
        assert assembly is not constructions()[name].assembly


def test_fuel_and_cooling():
    document = written(replace(MEASURED, fuel="heating oil", cooling=False, ducts=False))
    assert "cooling" not in document
    assert list(document["prices"]) == list(document["carbon"]) == ["heating oil"]
    assert "ducts_in" not in document["heating"]
    document = written(replace(MEASURED, fuel="electricity"))
    assert list(document["prices"]) == ["electricity"]
    assert document["heating"]["efficiency"] == {"value": 1.0, "basis": "guess"}
    assert document["heating"]["ducts_in"] == "basement"
