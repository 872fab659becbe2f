"""Basements and slab edges."""

import json

import pytest

from server.files.building import read_project
from server.recipes.making import make_strategy
from tests.core.findings.walls import ZONES
from tests.recipes.houses import (
    BASEMENT_FLOOR,
    BASEMENT_WALL,
    BRICK,
    FLOOR,
    SIDING,
    SLAB,
    WALL,
    part,
    project,
    rebuilt,
    solid,
    written,
)
from tests.recipes.ranch import BEGUN, ranch, ranch_with_strategies

ABOVE_GRADE = part("wall above grade", "wall", ("basement", "outdoors"), [BRICK], access="open")
RIM = part("rim joist", "wall", ("basement", "outdoors"), [solid("softwood", "1 1/2 in"), SIDING])
PARTS = [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR, ABOVE_GRADE, RIM]


def made_of(parts, recipe="exterior continuous", **keys):
    found = project(parts, **keys)
    made = make_strategy(found, recipe)
    rebuilt(found, (made,))
    return written(made)


# IECC 2021 Table R402.1.3, from memory: R5, R10, R15 continuous.
@pytest.mark.parametrize(
    ("zone", "boards"),
    [
        ("3A", [("1/2 in", "R-2"), ("1 in", "R-4")]),
        ("4A", [("1 in", "R-4"), ("1 1/2 in", "R-6")]),
        ("6A", [("2 in", "R-8"), ("2 in", "R-8")]),
    ],
)
def test_a_basement_that_comes_inside_is_lined(zone, boards):
    made = made_of(PARTS, zone=zone)
    assert made["inside"] == ["basement"]
    for name in ("basement wall", "wall above grade"):
        lining, inner, outer = made["changes"][name]["inside"]
        assert lining["material"] == "gypsum board"
        assert [(b["thickness"], b["label_resistance"]) for b in (inner, outer)] == boards
    assert made["changes"]["rim joist"]["remove"] == ["old siding"]
    assert "floor over the basement" not in made["changes"]


# IECC 2021 Table R402.1.3, from memory, as above; 1 1/2 in of mineral fibre covers the foam.
@pytest.mark.parametrize(
    ("zone", "boards"),
    [("3A", ["1/2 in", "1/2 in"]), ("4A", ["1/2 in", "1/2 in"]), ("7", ["1 in", "1 1/2 in"])],
)
def test_a_crawlspace_is_lined_without_gypsum_board(zone, boards):
    """Gypsum board and its paper rot in the damp of a crawlspace."""
    made = make_strategy(read_project(json.dumps(ranch(zone))), "exterior continuous")
    changes = written(made)["changes"]
    for name in ("crawlspace wall below grade", "crawlspace wall above grade"):
        cover, *foam = changes[name]["inside"]
        assert (cover["material"], cover["thickness"]) == ("rigid mineral wool board", "1 1/2 in")
        assert [each["thickness"] for each in foam] == boards
        assert {each["material"] for each in foam} == {"expanded polystyrene"}


SIDED_RIM = "rim joist, oriented strand board and siding"


@pytest.mark.parametrize("rim", [BEGUN.rim_joist, SIDED_RIM])
@pytest.mark.parametrize("zone", ZONES)
def test_the_rim_is_insulated_inside_where_the_walls_over_it_stay(zone, rim):
    """A crawlspace that comes inside has no bare rim; board outside would stand out below brick."""
    made = make_strategy(read_project(json.dumps(ranch(zone, rim))), "exterior continuous")
    changes = written(made).get("changes", {})
    assert not any(name.endswith(" wall") for name in changes)
    if zone in ("1A", "2A"):  # the code asks for no insulation of its walls
        assert "crawlspace" not in made.inside
        assert "rim joist" not in changes
    else:
        assert "crawlspace" in made.inside
        assert set(changes["rim joist"]) == {"inside"}
        assert {each["material"] for each in changes["rim joist"]["inside"]} == {
            "rigid mineral wool board",
            "expanded polystyrene",
        }


@pytest.mark.parametrize("zone", ZONES)
def test_nothing_stops_the_strategies_of_a_dry_ranch(zone):
    project = ranch_with_strategies(zone)
    judged = project.judge(project.compare())
    stops = [each for found in judged for each in found if each.severity.value == "stop"]
    assert [(each.code, each.outcome) for each in stops] == []


def test_a_bare_rim_under_walls_that_cannot_be_wrapped():
    """Of wood alone: nothing comes off it outside."""
    brick = WALL | {"layers": [BRICK]}
    rim = RIM | {"layers": [solid("softwood", "1 1/2 in")]}
    made = made_of([brick, *PARTS[1:-1], rim])
    assert [each["material"] for each in made["changes"]["rim joist"]["inside"]] == [
        "gypsum board",
        "expanded polystyrene",
        "expanded polystyrene",
    ]


def test_where_the_code_asks_for_no_lining_the_floor_is_filled():
    made = made_of(PARTS, zone="2A")
    assert "inside" not in made
    assert set(made["changes"]) == {WALL["name"], "floor over the basement"}


@pytest.mark.parametrize("recipe", ["cavity-only", "hybrid"])
def test_elsewhere_the_basement_stays_outside(recipe):
    made = made_of(PARTS, recipe)
    assert "inside" not in made
    assert "floor over the basement" in made["changes"]
    assert not {"basement wall", "wall above grade", "rim joist"} & set(made["changes"])


@pytest.mark.parametrize(
    ("words", "is_wet"),
    [
        ("dry since the gutters were mended", False),
        ("efflorescence", False),
        ("waterproofed outside", False),
        ("dry, no leaks", False),
        ("damp after rain", True),
        ("Wet in spring", True),
        ("water on the floor", True),
        ("leaking crack", True),
        ("not dry: leaks", True),
    ],
)
def test_a_wet_basement_stays_outside(words, is_wet):
    wall = BASEMENT_WALL | {"condition": ["sound", words]}
    made = made_of([WALL, FLOOR, wall, BASEMENT_FLOOR])
    assert ("inside" not in made) is is_wet
    assert ("basement wall" not in made["changes"]) is is_wet


def test_an_insulated_basement_wall_is_not_lined_again():
    layers = [solid("expanded polystyrene", "2 in"), BRICK]
    made = made_of([WALL, FLOOR, BASEMENT_WALL | {"layers": layers}, BASEMENT_FLOOR])
    assert made["inside"] == ["basement"]
    assert "basement wall" not in made["changes"]


@pytest.mark.parametrize("recipe", ["exterior continuous", "hybrid"])
def test_slab_edges_are_insulated(recipe):
    edge = {"resistance": "R-10", "depth": "2 ft", "thickness": "2 1/2 in"}
    assert made_of([WALL, SLAB], recipe)["edge_insulation"] == {"sun-room slab": edge}


@pytest.mark.parametrize(
    ("slab", "recipe", "zone"),
    [
        (SLAB, "cavity-only", "4A"),
        (SLAB, "hybrid", "2A"),
        (SLAB | {"edge_insulation": {"resistance": "R-5", "depth": "2 ft"}}, "hybrid", "4A"),
        (SLAB | {"layers": [], "u_value": "0.3 W/(m^2*K)"}, "hybrid", "4A"),
    ],
    ids=["cavity only", "warm zone", "has some", "only U known"],
)
def test_slab_edges_that_stay(slab, recipe, zone):
    assert "edge_insulation" not in made_of([WALL, slab], recipe, zone=zone)
