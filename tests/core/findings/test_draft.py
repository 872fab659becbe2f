"""Appliances that take their air from the rooms."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.draft import RULE
from tests.core.findings.cases import the_one
from tests.recipes.houses import CEILING, ROOF, WALL, solid

OPEN_FLUE = {"combustion": "open flue"}
LOOSE = {"air": {"ach50": 12}}  # of 10000 ft3: 2000 cfm at 50 Pa


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("open flue", "open flue", Severity.WATCH),
        ("sealed", "sealed", Severity.WATCH),
        ("none", "none", Severity.GOOD),
        (None, "not looked at", Severity.OPEN),
    ],
)
def test_as_found(answer, outcome, severity):
    found = the_one(RULE, [WALL], seen={"combustion": answer})
    assert (found.outcome, found.severity) == (outcome, severity)


@pytest.mark.parametrize(
    ("does", "outcome"),
    [
        ({"ach50": 5}, "open flue, tighter"),
        ({"cfm50": 1900}, "open flue, tighter"),
        ({"cfm50": 2100}, "open flue"),
        ({"air_changes": "0.2 1/hour"}, "open flue, tighter"),  # not measured: taken for tighter
    ],
)
def test_a_house_that_is_made_tighter(does, outcome):
    assert the_one(RULE, [WALL], does=does, seen=OPEN_FLUE, **LOOSE).outcome == outcome


@pytest.mark.parametrize(
    ("change", "outcome"),
    [
        ({"wall of studs": {"fill": "dense-pack cellulose"}}, "open flue, tighter"),
        ({"wall of studs": {"outside": [solid("expanded polystyrene")]}}, "open flue, tighter"),
        ({"wall of studs": {"fill": "mineral wool batt"}}, "open flue"),
    ],
)
def test_work_that_stops_air_though_no_figure_of_tightness_is_given(change, outcome):
    assert the_one(RULE, [WALL], change, seen=OPEN_FLUE, **LOOSE).outcome == outcome


def test_a_space_that_comes_inside_no_longer_feeds_what_burns():
    """10 an hour of 12500 ft3 is 2083 cfm, more than 12 of 10000 ft3; but its vents close."""
    does = {"inside": ["attic"], "ach50": 10}
    found = the_one(RULE, [WALL, CEILING, ROOF], does=does, seen=OPEN_FLUE, **LOOSE)
    assert found.outcome == "open flue, tighter"


@pytest.mark.parametrize(
    ("fan", "outcome"),
    [
        ({"flow": "90 cfm", "balanced": False}, "open flue, fan draws"),
        ({"flow": "90 cfm", "balanced": True}, "open flue"),
    ],
)
def test_a_fan_that_moves_air_one_way(fan, outcome):
    found = the_one(RULE, [WALL], does={"ventilation": fan}, seen=OPEN_FLUE, **LOOSE)
    assert found.outcome == outcome
    sealed = the_one(
        RULE, [WALL], does={"ventilation": fan}, seen={"combustion": "sealed"}, **LOOSE
    )
    assert sealed.outcome == "sealed"


def test_a_sealed_appliance_does_not_mind_a_tighter_house():
    found = the_one(RULE, [WALL], does={"ach50": 2}, seen={"combustion": "sealed"}, **LOOSE)
    assert (found.outcome, found.severity) == ("sealed", Severity.WATCH)
