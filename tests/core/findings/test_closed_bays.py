"""What is put into bays that stay closed on both sides."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.closed_bays import RULE
from tests.core.findings.cases import CLOSED_CELL, findings, the_one
from tests.recipes.houses import CEILING, WALL, bays, part, solid

UNSEEN = {key: value for key, value in WALL.items() if key != "access"}
OPEN = WALL | {"access": "open"}


def filled(with_what, **change):
    return {"wall of studs": {"fill": with_what, **change}}


@pytest.mark.parametrize(
    ("wall", "fill", "outcome", "severity"),
    [
        (WALL, "dense-pack cellulose", "blown", Severity.GOOD),
        (WALL, "mineral wool loose fill", "settles", Severity.WATCH),
        (UNSEEN, "dense-pack glass fibre", "blown", Severity.GOOD),
        (WALL, "mineral wool batt", "batts", Severity.STOP),
        (WALL, "sheep wool batt", "batts", Severity.STOP),
        (WALL, CLOSED_CELL, "foam", Severity.MEND),
        (WALL, "open-cell sprayed foam", "foam", Severity.MEND),
        (OPEN, "mineral wool batt", "open", Severity.GOOD),
        (OPEN, CLOSED_CELL, "open", Severity.GOOD),
        (UNSEEN, "mineral wool batt", "not looked at", Severity.OPEN),
        (UNSEEN, CLOSED_CELL, "not looked at", Severity.OPEN),
    ],
)
def test_fills(wall, fill, outcome, severity):
    found = the_one(RULE, [wall], filled(fill))
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.components == ("wall of studs",)
    if outcome in ("batts", "foam", "not looked at"):
        assert found.facts["fill"] == fill


@pytest.mark.parametrize("layer", ["old siding", "inside face"])
def test_batts_go_in_where_a_face_comes_off(layer):
    assert not findings(RULE, [WALL], filled("mineral wool batt", remove=[layer]))


def test_nothing_is_said_where_no_closed_bay_is_filled():
    assert not findings(RULE, [WALL])
    board = {"wall of studs": {"outside": [solid("rigid mineral wool board", "2 in")]}}
    assert not findings(RULE, [WALL], board)
    more = {"upper ceiling": {"fill_thickness": "14 in"}}
    assert not findings(RULE, [WALL, CEILING], more)
    batts = {"upper ceiling": {"fill": "mineral wool batt"}}
    assert not findings(RULE, [WALL, CEILING], batts)  # open from the attic


@pytest.mark.parametrize(
    ("kind", "sides", "outcome"),
    [
        ("wall", ("indoors", "outdoors"), "settles"),
        ("partition", ("indoors", "indoors"), "settles"),
        ("roof", ("indoors", "outdoors"), "settles"),
        ("floor", ("indoors", "crawlspace"), "blown"),
    ],
)
def test_loose_fill_settles_where_bays_stand_or_slope(kind, sides, outcome):
    layers = [solid("gypsum board"), bays(), solid("plywood")]
    closed = part("bay", kind, sides, layers, access="closed")
    change = {"bay": {"fill": "cellulose loose fill"}}
    assert outcome in findings(RULE, [WALL, closed], change)
