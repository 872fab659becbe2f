"""Open bays, by what was seen of the framing or by the year. Blocking: IRC R302.11."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.fire_blocking import RULE
from tests.core.findings.cases import EMPTY_WALL, findings, the_one
from tests.recipes.houses import BRICK, part

SEEN_BALLOON = {"seen": {"framing": "balloon"}}


def test_balloon_framing_asks_for_blocking():
    found = the_one(RULE, [EMPTY_WALL], year_built=1910, **SEEN_BALLOON)
    assert (found.outcome, found.severity) == ("balloon", Severity.MEND)


def test_packing_the_bays_leaves_it_to_the_official():
    change = {"empty wall": {"fill": "dense-pack cellulose"}}
    found = the_one(RULE, [EMPTY_WALL], change, **SEEN_BALLOON)
    assert (found.outcome, found.severity) == ("balloon, packed", Severity.MEND)
    assert found.facts["materials"] == ("dense-pack cellulose",)
    batts = {"empty wall": {"fill": "mineral wool batt"}}
    assert the_one(RULE, [EMPTY_WALL], batts, **SEEN_BALLOON).outcome == "balloon"


def test_platform_framing_is_good_at_any_age():
    found = the_one(RULE, [EMPTY_WALL], year_built=1920, seen={"framing": "platform"})
    assert found.severity is Severity.GOOD


@pytest.mark.parametrize(("year", "count"), [(1949, 1), (1950, 0), (None, 1)])
def test_without_an_answer_the_year_decides(year, count):
    found = findings(RULE, [EMPTY_WALL], year_built=year)
    assert len(found) == count
    assert all(each.severity is Severity.OPEN for each in found.values())


def test_walls_of_brick_have_no_bays():
    brick = part("brick wall", "wall", ("indoors", "outdoors"), [BRICK])
    assert not findings(RULE, [brick], year_built=1900)
