"""Junctions by the words of their names, and what the work asks of each."""

import json

import pytest

from server.crew.junctions import GENERAL, SORTS, Doings, doings_of, junction_points, sort_of
from server.files.building import read_project
from server.pricing.layer_work import layer_works
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from tests.recipes.ranch import ranch, ranch_with_strategies

EVERYTHING = Doings(
    outward=0.1,
    inward=0.05,
    wraps_walls=True,
    wraps_roofs=True,
    fills=True,
    new_openings=True,
    attic=True,
    basement=True,
    edge=True,
    rims=True,
)


@pytest.mark.parametrize(
    ("name", "sort"),
    [
        ("window and door edges", "opening"),
        ("outside corners", "corner"),
        ("main floor edge at the foundation", "foundation"),
        ("upper floor edge at the gable walls", "floor edge"),
        ("rakes at the sloped ceilings", "rake"),
        ("foot of the south knee wall", "knee wall"),
        ("south eaves", "eaves"),
        ("porch roof against the north wall", "lower roof"),
        ("sun-room roof against the south wall", "lower roof"),
        ("sun-room slab edge", "slab edge"),
        ("chimney through the roof", "chimney"),
        ("sill on the brick", "foundation"),
        ("where the bay meets", GENERAL),
    ],
)
def test_names_tell_what_a_junction_is(name, sort):
    assert sort_of(name) == sort


def points(demo, doings, strategy=1):
    told = junction_points(demo.file, demo.file.strategies[strategy], doings, lambda m: f"{m} m")
    return {name: each for each in told for name, _length in each.places}


def test_every_junction_has_its_length_and_something_to_watch(demo):
    told = points(demo, EVERYTHING)
    assert set(told) == {each.name for each in demo.file.junctions}
    assert all(each.points for each in told.values())
    assert dict(told["south eaves"].places)["south eaves"] == pytest.approx(30 * 0.3048)


def test_twins_are_told_once_with_all_their_names(demo):
    told = points(demo, EVERYTHING)
    for one, other in (
        ("south eaves", "north eaves"),
        ("foot of the south knee wall", "foot of the north knee wall"),
        ("chimney through the upper ceiling", "chimney through the roof"),
        ("main floor edge at the foundation", "sill on the brick"),
    ):
        assert told[one] is told[other]
    once = junction_points(demo.file, demo.file.strategies[1], EVERYTHING, str)
    assert len({each.points for each in once}) == len(once)
    assert sum(len(each.places) for each in once) == len(demo.file.junctions)


ATTICS = frozenset({"south side attic", "north side attic", "upper attic"})


@pytest.mark.parametrize("wraps", [True, False])
def test_an_attic_that_comes_inside_is_neither_blocked_nor_aired(demo, wraps):
    doings = Doings(wraps_roofs=wraps, wraps_walls=wraps, fills=True, attic=True, brought_in=ATTICS)
    told = points(demo, doings)
    for name in ("south eaves", "north eaves", "foot of the south knee wall"):
        text = " ".join(told[name].points)
        for word in ("vented", "affle", "air path", "Block", "attic"):
            assert word not in text, (name, word)
    assert "Join the air layer of wall and roof" in told["south eaves"].points[0]
    assert any("rafter tails" in each for each in told["south eaves"].points) is wraps


def test_an_attic_that_stays_cold_is_blocked_and_aired(demo):
    """One side attic comes inside, the other does not."""
    doings = Doings(
        fills=True,
        attic=True,
        brought_in=frozenset({"south side attic"}),
        vented=frozenset({"north side attic"}),
    )
    told = points(demo, doings)
    assert "baffles" in " ".join(told["north eaves"].points)
    assert "Block every joist bay" in told["foot of the north knee wall"].points[0]
    assert "baffles" not in " ".join(told["south eaves"].points)
    assert "Block" not in " ".join(told["foot of the south knee wall"].points)


def test_what_is_not_touched_has_the_general_line(demo):
    told = points(demo, Doings())
    assert len(told["outside corners"].points) == 1
    assert "running through" in told["outside corners"].points[0]
    assert len(points(demo, EVERYTHING)["outside corners"].points) == 2


def test_a_chimney_is_watched_whatever_is_done(demo):
    told = " ".join(points(demo, Doings())["chimney through the roof"].points)
    assert "flue" in told
    assert "combustibles" in told


def test_growth_says_how_deep_jambs_are(demo):
    told = " ".join(
        points(demo, Doings(outward=0.12, wraps_walls=True))["window and door edges"].points
    )
    assert "0.12 m" in told
    assert "Sill pan" in told
    thinner = " ".join(
        points(demo, Doings(outward=-0.01, fills=True))["window and door edges"].points
    )
    assert "extension" not in thinner


def test_every_sort_says_more_when_all_is_done(demo):
    for code, _pattern in SORTS:
        found = [each for name, each in points(demo, EVERYTHING).items() if sort_of(name) == code]
        assert found, code
        assert all("running through" not in each.points[0] for each in found), code


def test_better_junctions_are_counted_on(demo):
    told = points(demo, EVERYTHING)
    assert told["outside corners"].counted == ("outside corners",)
    assert told["sill on the brick"].counted == ("main floor edge at the foundation",)
    assert not told["chimney through the roof"].counted


def test_what_strategies_of_the_demo_house_do(demo):
    def doings(index):
        entry = demo.file.strategies[index]
        works = layer_works(demo.file, entry)
        steps = frozenset(item.step for item in take_off(demo, entry))
        return doings_of(demo.file, entry, works, steps), steps

    cavity, _steps = doings(0)
    assert (cavity.wraps_walls, cavity.wraps_roofs, cavity.fills, cavity.edge) == (
        False,
        False,
        True,
        False,
    )
    exterior, steps = doings(1)
    assert (exterior.wraps_walls, exterior.wraps_roofs, exterior.fills) == (True, True, False)
    assert exterior.basement
    assert exterior.edge
    assert exterior.brought_in > ATTICS
    assert exterior.vented == frozenset()
    assert cavity.vented == ATTICS
    assert exterior.new_openings is (Step.NEW_WINDOW in steps)
    # 4 in of board, 3/4 in of gap, membrane; siding for siding
    assert exterior.outward == pytest.approx(4.75 * 0.0254 + 0.0006)


def told_of(project, name):
    entry = next(each for each in project.file.strategies if each.name == name)
    items = take_off(project, entry)
    doings = doings_of(
        project.file,
        entry,
        layer_works(project.file, entry),
        frozenset(item.step for item in items),
    )
    found = junction_points(project.file, entry, doings, lambda m: f"{m / 0.0254:.2f} in")
    return {place: each.points for each in found for place, _length in each.places}


def test_walls_that_stay_have_no_jambs_and_no_corners():
    """Brick veneer stays; what grows are the attic's gables and the walls of the crawlspace."""
    told = told_of(ranch_with_strategies(), "Exterior continuous")
    assert set(told) == {"eaves", "floor edge at the foundation"}
    assert not any("Air barrier and board" in each for each in told["floor edge at the foundation"])
    assert not any(
        "outside board above grade" in each for each in told["floor edge at the foundation"]
    )


def test_a_rim_is_told_of_where_it_is_insulated_from_inside(demo):
    told = told_of(ranch_with_strategies(), "Exterior continuous")
    assert any("cut tight between joists" in each for each in told["floor edge at the foundation"])
    wrapped = told_of(demo, "Exterior continuous")
    assert not any("between joists" in each for points in wrapped.values() for each in points)


def test_new_windows_in_walls_that_stay_are_flashed():
    document = ranch()
    windows = {"front windows": {"u_value": "0.27 Btu/(hr*ft^2*degF)"}}
    document["strategies"] = [{"name": "windows", "recipe": "own", "openings": windows}]
    told = told_of(read_project(json.dumps(document)), "windows")
    assert len(told["window and door edges"]) == 1
    assert "Sill pan" in told["window and door edges"][0]


def test_depths_are_those_of_walls_that_hold_openings():
    """A gable of the attic, and a wall without a window, grow more than the wall with one."""
    document = ranch()
    board = {"material": "rigid mineral wool board", "thickness": "2 in"}
    thick = board | {"thickness": "5 in"}
    wood = {"material": "wood lap siding", "thickness": "1/2 in"}
    document["strategies"] = [
        {
            "name": "own",
            "recipe": "own",
            "changes": {
                "front wall": {"outside": [board, wood]},
                "right attic gable": {"outside": [thick], "inside": [thick]},
                "crawlspace wall above grade": {"inside": [thick]},
            },
        }
    ]
    told = " ".join(told_of(read_project(json.dumps(document)), "own")["window and door edges"])
    assert "outward by 2.50 in" in told
    assert "inward" not in told


def test_what_the_figures_count_on_is_told_though_no_wall_changes():
    document = ranch()
    better = {"window and door edges": "0.02 W/(m*K)"}
    document["strategies"] = [{"name": "own", "recipe": "own", "psi": better}]
    told = told_of(read_project(json.dumps(document)), "own")
    assert "running through" in told["window and door edges"][0]
    assert "outside corners" not in told
