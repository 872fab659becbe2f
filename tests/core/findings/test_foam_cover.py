"""Foam and its cover. IRC R316.4, R316.5.3 and R316.5.11 give the thicknesses."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.foam_cover import RULE
from tests.core.findings.cases import CLOSED_CELL, EMPTY_WALL, GYPSUM, findings, the_one
from tests.recipes.houses import (
    BASEMENT_FLOOR,
    BASEMENT_WALL,
    BOARDS,
    BRICK,
    PLASTER,
    WALL,
    bays,
    part,
    solid,
)

SIDES = ("indoors", "outdoors")
FOAM = solid("extruded polystyrene, modern", "2 in")


def wall(*layers, name="wall", sides=SIDES):
    return part(name, "wall", sides, list(layers))


@pytest.mark.parametrize(
    ("inside", "outcome"),
    [
        ([GYPSUM], "covered"),  # 1/2 in gypsum board, R316.4
        ([solid("gypsum board", "12 mm")], "covered"),  # sold as 1/2 in
        ([solid("gypsum board", "3/8 in")], "thin toward a room"),
        ([solid("gypsum board", "1/4 in"), solid("gypsum board", "1/4 in")], "covered"),
        ([PLASTER], "covered"),
        ([solid("old soft brick", "4 in")], "covered"),  # masonry from 1 in, R316.5.1 (memory)
        ([solid("plywood", "23/32 in")], "covered by wood"),  # R316.4
        ([solid("plywood", "1/2 in")], "wrong cover toward a room"),
        ([bays("mineral wool batt")], "wrong cover toward a room"),
        ([solid("polyethylene film", "0.006 in")], "bare toward a room"),
        ([], "bare toward a room"),
    ],
)
def test_cover_toward_a_room(inside, outcome):
    assert the_one(RULE, [wall(*inside, FOAM, BOARDS)]).outcome == outcome


@pytest.mark.parametrize(
    ("inside", "outcome"),
    [
        ([], "bare in a buffer"),
        ([solid("asphalt felt", "0.04 in")], "bare in a buffer"),
        ([solid("gypsum board", "3/8 in")], "ignition barrier"),  # R316.5.3
        ([solid("plywood", "1/4 in")], "ignition barrier"),  # R316.5.3 (memory)
        ([bays("mineral wool batt", "1 1/2 in")], "ignition barrier"),  # R316.5.3 (memory)
        ([bays("mineral wool batt", "1 in")], "bare in a buffer"),
        ([GYPSUM], "covered"),
    ],
)
def test_cover_toward_an_attic(inside, outcome):
    roof = part("roof", "roof", ("attic", "outdoors"), [*inside, FOAM, BOARDS])
    assert the_one(RULE, [WALL, roof]).outcome == outcome


def test_too_thin_a_board_tells_both_thicknesses():
    found = the_one(RULE, [wall(solid("gypsum board", "3/8 in"), FOAM, BOARDS)])
    assert found.severity is Severity.STOP
    assert found.measured is not None
    assert found.measured.at_least
    assert found.measured.figure.value == pytest.approx(0.375 * 0.0254, abs=1e-5)
    assert found.measured.limit.value == pytest.approx(0.5 * 0.0254)  # 1/2 in, R316.4


def test_nothing_is_said_without_foam():
    assert not findings(RULE, [WALL, EMPTY_WALL])


def test_toward_outdoors_and_ground_nothing_is_asked():
    assert set(findings(RULE, [wall(PLASTER, bays(), BOARDS, FOAM)])) == {"covered"}


def test_both_faces_of_a_floor_over_a_crawlspace_are_looked_at():
    floor = part(
        "floor", "floor", ("indoors", "crawlspace"), [solid("concrete", "2 in"), bays(CLOSED_CELL)]
    )
    assert set(findings(RULE, [floor])) == {"covered", "bare in a buffer"}


@pytest.mark.parametrize(
    ("thickness", "outcome"),
    [("3 in", "rim joist"), ("4 in", "bare toward a room")],  # 3 1/4 in, R316.5.11
)
def test_rim_joist_may_stay_bare_under_thin_sprayed_foam(thickness, outcome):
    rim = wall(solid(CLOSED_CELL, thickness), solid("softwood", "1 1/2 in"), name="rim joist")
    assert the_one(RULE, [rim]).outcome == outcome


def test_a_strategy_that_puts_foam_in_bare_is_stopped():
    parts = [WALL, BASEMENT_WALL, BASEMENT_FLOOR]
    change = {"basement wall": {"inside": [FOAM]}}
    assert not findings(RULE, parts)
    assert (
        the_one(RULE, parts, change).severity is Severity.STOP
    )  # a basement is no attic, R316.5.3
    inside = the_one(RULE, parts, change, does={"inside": ["basement"]})
    assert inside.severity is Severity.STOP
    covered = {"basement wall": {"inside": [GYPSUM, FOAM]}}
    assert the_one(RULE, parts, covered, does={"inside": ["basement"]}).outcome == "covered"


def test_an_attic_brought_inside_is_no_room():
    roof = part("roof", "roof", ("attic", "outdoors"), [FOAM, BOARDS])
    found = the_one(RULE, [WALL, roof], does={"inside": ["attic"]})
    assert found.outcome == "bare in a buffer"


def test_brick_behind_the_foam_is_no_cover():
    assert the_one(RULE, [wall(FOAM, BRICK)]).outcome == "bare toward a room"


PLY = solid("plywood", "1/2 in")


@pytest.mark.parametrize(
    ("layers", "outcome"),
    [
        # R316.5.2 (memory) is about foam above the deck, not below it behind a thin ceiling
        ([PLY, bays(CLOSED_CELL), PLY], "wrong cover toward a room"),
        ([bays(), PLY, FOAM], "above the deck"),
        ([PLY, FOAM], "above the deck"),
    ],
)
def test_only_a_deck_below_the_foam_covers_it_on_a_roof(layers, outcome):
    roof = part("roof", "roof", ("indoors", "outdoors"), [*layers, solid("asphalt shingle")])
    assert the_one(RULE, [WALL, roof]).outcome == outcome


@pytest.mark.parametrize("space", ["attic bedroom", "attic room", "finished attic"])
def test_a_room_under_the_roof_is_no_attic(space):
    layers = [solid("gypsum board", "3/8 in"), FOAM, BOARDS]
    roof = part("roof", "roof", (space, "outdoors"), layers)
    found = the_one(RULE, [roof], does={"inside": [space]})
    assert found.severity is Severity.STOP
