"""What can be taken out and used again."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.use_again import RULE
from tests.core.findings.cases import CLOSED_CELL, EMPTY_WALL, findings, the_one
from tests.recipes.houses import CEILING, WALL, solid

SCREWS = {"per_area": "0.56 per ft^2", "material": "steel", "diameter": "0.19 in"}


@pytest.mark.parametrize(
    ("fill", "outcome", "severity"),
    [
        ("mineral wool batt", "batts", Severity.GOOD),
        ("dense-pack cellulose", "packed fill", Severity.WATCH),
        (CLOSED_CELL, "sprayed foam", Severity.WATCH),
    ],
)
def test_fills(fill, outcome, severity):
    found = the_one(RULE, [EMPTY_WALL], {"empty wall": {"fill": fill}})
    assert (found.outcome, found.severity) == (outcome, severity)


@pytest.mark.parametrize(
    ("keys", "outcome"), [({"fasteners": SCREWS}, "fastened board"), ({}, "board")]
)
def test_boards_by_how_they_are_held(keys, outcome):
    board = solid("rigid mineral wool board", "2 in", **keys)
    assert the_one(RULE, [WALL], {"wall of studs": {"outside": [board]}}).outcome == outcome


def test_loose_fill():
    found = the_one(RULE, [CEILING], {"upper ceiling": {"fill_thickness": "14 in"}})
    assert found.outcome == "loose fill"


def test_nothing_is_said_as_found():
    assert not findings(RULE, [WALL, EMPTY_WALL, CEILING])
