"""How far a wall grows: what goes on less what comes off."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.wall_growth import RULE
from tests.core.findings.cases import GYPSUM, findings, the_one
from tests.recipes.houses import (
    BASEMENT_FLOOR,
    BASEMENT_WALL,
    BOARDS,
    ROOF,
    SIDING,
    WALL,
    bays,
    part,
    solid,
)

INCH = 0.0254
BOARD = solid("rigid mineral wool board", "2 in")
GAP = {"air_layer": "well ventilated", "thickness": "3/4 in"}
NEW_SIDING = solid("wood lap siding")


@pytest.mark.parametrize(
    ("change", "outcome", "inches"),
    [
        # 2 + 3/4 + 1/2 - 1/2
        (
            {"remove": ["old siding"], "outside": [BOARD, GAP, NEW_SIDING]},
            "outward",
            2.75,
        ),
        # 2 + 3/4 + 1/2 over what stays
        ({"outside": [BOARD, GAP, NEW_SIDING]}, "outward", 3.25),
        ({"outside": [solid("wood lap siding", "1/2 in")]}, "outward", 0.5),
        # 1/2 + 2 over what stays
        ({"inside": [GYPSUM, BOARD]}, "inward", 2.5),
        # 1/2 + 2 - 7/8
        ({"remove": ["inside face"], "inside": [GYPSUM, BOARD]}, "inward", 1.625),
    ],
)
def test_growth(change, outcome, inches):
    found = the_one(RULE, [WALL], {"wall of studs": change})
    assert (found.outcome, found.severity) == (outcome, Severity.WATCH)
    assert found.components == ("wall of studs",)
    assert found.facts["growth"].value == pytest.approx(inches * INCH, abs=1e-5)


def test_both_ways():
    change = {"wall of studs": {"inside": [GYPSUM], "outside": [BOARD], "fill": "glass fibre batt"}}
    found = findings(RULE, [WALL], change)
    assert found["inward"].facts["growth"].value == pytest.approx(0.5 * INCH, abs=1e-5)
    assert found["outward"].facts["growth"].value == pytest.approx(2 * INCH, abs=1e-5)


def test_studs_before_brick_take_room():
    """1/2 + 3 1/2 = 4 in; board on the outside of it meets only soil."""
    parts = [WALL, BASEMENT_WALL, BASEMENT_FLOOR]
    studs = {"basement wall": {"inside": [GYPSUM, bays("mineral wool batt")], "outside": [BOARD]}}
    found = the_one(RULE, parts, studs)
    assert found.outcome == "inward"
    assert found.facts["growth"].value == pytest.approx(4 * INCH, abs=1e-5)


def test_studs_that_the_survey_left_out_take_none():
    bare = part("bare wall", "wall", ("indoors", "outdoors"), [BOARDS, SIDING])
    change = {"bare wall": {"inside": [GYPSUM, bays("mineral wool batt")]}}
    found = the_one(RULE, [bare], change)
    assert found.facts["growth"].value == pytest.approx(0.5 * INCH, abs=1e-5)


@pytest.mark.parametrize(
    "change",
    [
        {"fill": "dense-pack cellulose"},
        {"remove": ["old siding"], "outside": [NEW_SIDING]},
        {"inside": [solid("gypsum board", "3/8 in")]},  # less than the 1/2 in that trim takes up
        {"remove": ["inside face"], "inside": [GYPSUM]},  # 1/2 - 7/8 in
    ],
)
def test_walls_that_do_not_grow(change):
    assert not findings(RULE, [WALL], {"wall of studs": change})


def test_a_roof_grows_by_what_lies_on_it():
    assert not findings(RULE, [WALL, ROOF])
    found = the_one(RULE, [WALL, ROOF], {"attic roof": {"outside": [BOARD]}})
    assert (found.outcome, found.components) == ("roof", ("attic roof",))


def test_nothing_moves_at_the_walls_of_a_crawlspace():
    wall = part("crawl wall", "wall", ("crawlspace", "outdoors"), [solid("concrete", "8 in")])
    assert not findings(RULE, [WALL, wall], {"crawl wall": {"inside": [BOARD]}})
    found = findings(RULE, [WALL, wall], {"crawl wall": {"outside": [BOARD]}})
    assert set(found) == {"outward"}
