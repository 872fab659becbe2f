"""Insulation at grade and termites."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.foam_near_soil import RULE
from tests.core.findings.cases import CLOSED_CELL, findings, the_one
from tests.recipes.houses import BASEMENT_FLOOR, BASEMENT_WALL, SLAB, WALL, bays, solid

CELLAR = [WALL, BASEMENT_WALL, BASEMENT_FLOOR]
FOAM = solid("extruded polystyrene, modern", "2 in")
OUTSIDE = {"basement wall": {"outside": [FOAM]}}
NO_SIGNS = {"termites": "no signs"}


# Very heavy infestation lies in about zones 1 to 3, IRC Figure R301.2(7) (memory).
@pytest.mark.parametrize(
    ("zone", "outcome", "severity"),
    [
        ("2A", "in the soil, many termites", Severity.MEND),
        ("3A", "in the soil, many termites", Severity.MEND),
        ("4A", "in the soil", Severity.WATCH),
        (None, "in the soil", Severity.WATCH),
    ],
)
def test_board_on_a_foundation(zone, outcome, severity):
    found = the_one(RULE, CELLAR, OUTSIDE, zone=zone, seen=NO_SIGNS)
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.components == ("basement wall",)


@pytest.mark.parametrize(
    ("change", "outcome"),
    [
        ({"inside": [FOAM]}, "inside the foundation"),
        ({"inside": [solid(CLOSED_CELL, "2 in")]}, "inside the foundation"),
        ({"inside": [solid("rigid mineral wool board", "2 in")]}, "inside the foundation"),
        ({"outside": [solid("rigid mineral wool board", "2 in")]}, "in the soil"),
    ],
)
def test_board_on_either_side_hides_the_way(change, outcome):
    found = the_one(RULE, CELLAR, {"basement wall": change}, seen=NO_SIGNS)
    assert (found.outcome, found.severity) == (outcome, Severity.WATCH)


def test_foam_under_a_slab_is_named_by_the_code_too():
    under = {"sun-room slab": {"outside": [FOAM]}}
    found = the_one(RULE, [WALL, SLAB], under, zone="2A", seen=NO_SIGNS)
    assert (found.outcome, found.severity) == ("in the soil, many termites", Severity.MEND)
    wool = {"sun-room slab": {"outside": [solid("high-density mineral wool board", "2 in")]}}
    assert not findings(RULE, [WALL, SLAB], wool, zone="2A", seen=NO_SIGNS)


def test_what_is_not_in_the_way_of_termites_is_not_told():
    lining = {"basement wall": {"inside": [solid("gypsum board"), bays("mineral wool batt")]}}
    assert not findings(RULE, CELLAR, lining, seen=NO_SIGNS)
    above = {"wall of studs": {"outside": [FOAM]}}
    assert not findings(RULE, CELLAR, above, seen=NO_SIGNS)
    assert not findings(RULE, CELLAR, seen=NO_SIGNS)


def test_board_at_the_edge_of_a_slab():
    edge = {"sun-room slab": {"resistance": "R-10", "depth": "2 ft"}}
    found = the_one(RULE, [WALL, SLAB], does={"edge_insulation": edge}, seen=NO_SIGNS)
    assert (found.outcome, found.components) == ("in the soil", ("sun-room slab",))


def test_where_nobody_looked_for_termites_that_is_open():
    found = findings(RULE, CELLAR, OUTSIDE)
    assert set(found) == {"in the soil", "not looked at"}
    assert found["not looked at"].severity is Severity.OPEN
    assert not findings(RULE, CELLAR)


def test_signs_of_termites_stop_it_even_as_found():
    assert the_one(RULE, CELLAR, seen={"termites": "signs"}).severity is Severity.STOP
    worked = findings(RULE, CELLAR, OUTSIDE, seen={"termites": "signs"})
    assert set(worked) == {"signs", "in the soil"}


def test_wool_board_is_no_foam():
    """IRC R318.4 is about foam plastic."""
    wool = {"basement wall": {"outside": [solid("rigid mineral wool board", "2 in")]}}
    found = the_one(RULE, CELLAR, wool, zone="2A", seen=NO_SIGNS)
    assert (found.outcome, found.severity) == ("in the soil", Severity.WATCH)
