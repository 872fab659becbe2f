"""Bare ground under a floor."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.crawl_ground import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import (
    BASEMENT_FLOOR,
    BASEMENT_WALL,
    BOARDS,
    DEEP,
    FLOOR,
    FLOORING,
    SLAB,
    WALL,
    bays,
    part,
    solid,
)

OVER_CRAWLSPACE = part(
    "floor", "floor", ("indoors", "crawlspace"), [FLOORING, bays("mineral wool batt")]
)


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("covered", "covered", Severity.GOOD),
        ("bare", "bare", Severity.MEND),
        (None, "not looked at", Severity.OPEN),
    ],
)
def test_ground_under_a_floor(answer, outcome, severity):
    found = the_one(RULE, [WALL, OVER_CRAWLSPACE], seen={"crawl_ground_cover": answer})
    assert (found.outcome, found.severity) == (outcome, severity)


def test_bare_ground_under_a_space_that_comes_inside():
    parts = [WALL, OVER_CRAWLSPACE]
    found = the_one(RULE, parts, does={"inside": ["crawlspace"]}, seen=BARE)
    assert (found.outcome, found.severity) == ("bare, comes inside", Severity.MEND)
    filled = {"floor": {"fill_thickness": "2 in"}}
    assert the_one(RULE, parts, filled, seen=BARE).outcome == "bare"


def test_a_cellar_floor_of_earth_is_bare_ground():
    earth = part(
        "cellar floor",
        "basement floor",
        ("basement", "ground"),
        [solid("gravel fill", "4 in")],
        **DEEP,
    )
    parts = [FLOOR, BASEMENT_WALL, earth]
    assert the_one(RULE, parts, seen={"crawl_ground_cover": "bare"}).outcome == "bare"


BARE = {"crawl_ground_cover": "bare"}


def test_concrete_on_the_ground_leaves_none_bare():
    assert not findings(RULE, [FLOOR, BASEMENT_WALL, BASEMENT_FLOOR], seen=BARE)


def test_nothing_is_asked_where_no_space_lies_below():
    over_porch = part("floor", "floor", ("indoors", "outdoors"), [FLOORING, bays(), BOARDS])
    assert not findings(RULE, [WALL, SLAB, over_porch], seen=BARE)
