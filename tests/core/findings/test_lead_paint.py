"""Old paint that the work disturbs.

40 CFR 745.83 (memory): minor work is up to 20 ft2 outdoors and 6 ft2 a room indoors, and never the
replacement of windows; houses from before 1978.
"""

import pytest

from server.core.findings.base import Severity
from server.core.findings.lead_paint import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import CEILING, WALL, part, solid

FOUND = {"lead_paint": "found"}
STRIPPED = {"wall of studs": {"remove": ["old siding"]}}
GUTTED = {"wall of studs": {"remove": ["inside face"]}}
BLOWN = {"wall of studs": {"fill": "dense-pack cellulose"}}
SQUARE_FOOT = 0.3048**2
WINDOW = {
    key: value
    for key, value in part("window", "window", ("indoors", "outdoors"), []).items()
    if key != "area"
} | {"area": "12 ft^2", "u_value": "0.9 BTU/(h*ft^2*degF)", "shgc": 0.6}


def wall(area):
    return WALL | {"area": f"{area} ft^2"}


@pytest.mark.parametrize(
    ("year", "answer", "outcome", "severity"),
    [
        (1977, None, "presumed", Severity.WATCH),
        (None, None, "year not known", Severity.OPEN),
        (1938, "found", "found", Severity.WATCH),
        (None, "found", "found", Severity.WATCH),
        (1985, "found", "found", Severity.WATCH),  # a test goes before the year
        (1938, "tested, none", "none", Severity.GOOD),
    ],
)
def test_as_found(year, answer, outcome, severity):
    found = the_one(RULE, [WALL], year_built=year, seen={"lead_paint": answer})
    assert (found.outcome, found.severity) == (outcome, severity)


@pytest.mark.parametrize(
    ("answer", "outcome"),
    [("found", "work on lead paint"), (None, "work on paint not tested")],
)
@pytest.mark.parametrize("change", [STRIPPED, GUTTED, BLOWN])
def test_what_comes_off_or_is_drilled(answer, outcome, change):
    found = the_one(RULE, [wall(200), CEILING], change, seen={"lead_paint": answer})
    assert (found.outcome, found.severity) == (outcome, Severity.MEND)
    assert found.components == ("wall of studs",)
    assert found.measured is None  # what is disturbed of a whole wall nobody knows


@pytest.mark.parametrize(
    ("change", "area", "outcome"),
    [
        (STRIPPED, 19, "small areas"),
        (STRIPPED, 21, "work on lead paint"),
        (GUTTED, 5, "small areas"),
        (GUTTED, 7, "work on lead paint"),
        (BLOWN, 19, "small areas"),  # drilled from outside
    ],
)
def test_small_areas(change, area, outcome):
    assert the_one(RULE, [wall(area)], change, seen=FOUND).outcome == outcome


def test_bays_that_are_blown_from_the_room():
    from_inside = wall(10) | {"reached_from": "inside"}
    assert the_one(RULE, [from_inside], BLOWN, seen=FOUND).outcome == "work on lead paint"


def test_areas_add_up():
    def both(area):
        parts = [wall(area), wall(area) | {"name": "other wall"}]
        change = STRIPPED | {"other wall": {"remove": ["old siding"]}}
        return the_one(RULE, parts, change, seen=FOUND)

    assert both(15).outcome == "work on lead paint"
    small = both(9)
    assert small.measured.figure.value == pytest.approx(18 * SQUARE_FOOT, abs=0.01)
    assert small.measured.limit.value == pytest.approx(20 * SQUARE_FOOT)


def test_a_window_is_never_a_small_area_but_a_storm_over_it_is():
    new = {"openings": {"window": {"u_value": "0.3 BTU/(h*ft^2*degF)"}}}
    assert the_one(RULE, [WALL, WINDOW], does=new, seen=FOUND).outcome == "work on lead paint"
    storm = {"openings": {"window": {"storm_u_value": "1 BTU/(h*ft^2*degF)"}}}
    assert the_one(RULE, [WALL, WINDOW], does=storm, seen=FOUND).outcome == "small areas"


def test_paint_that_holds_no_lead_may_come_off():
    found = the_one(RULE, [WALL], STRIPPED, seen={"lead_paint": "tested, none"})
    assert found.severity is Severity.GOOD


@pytest.mark.parametrize("change", [None, STRIPPED])
def test_a_house_from_1978_on_has_none(change):
    assert not findings(RULE, [WALL], change, year_built=1978)


def test_work_that_touches_no_paint_says_nothing():
    more = {"upper ceiling": {"fill_thickness": "14 in"}}
    assert not findings(RULE, [WALL, CEILING], more, seen=FOUND)
    over = {"wall of studs": {"outside": [solid("rigid mineral wool board", "2 in")]}}
    assert not findings(RULE, [WALL], over, seen=FOUND)
