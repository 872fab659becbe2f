"""What insulation does after a leak."""

import pytest

from server.core.findings.after_a_leak import RULE
from server.core.findings.base import Severity
from tests.core.findings.cases import CLOSED_CELL, EMPTY_WALL, findings, the_one
from tests.recipes.houses import WALL, solid


@pytest.mark.parametrize(
    ("fill", "outcome", "severity"),
    [
        ("mineral wool batt", "stone wool", Severity.GOOD),
        ("dense-pack mineral wool", "stone wool", Severity.GOOD),
        ("glass fibre batt", "glass wool batts", Severity.WATCH),
        ("dense-pack glass fibre", "blown glass wool", Severity.WATCH),
        ("dense-pack cellulose", "cellulose", Severity.WATCH),
        ("dense-pack wood fibre", "wood fibre fill", Severity.WATCH),
        ("cotton batt", "natural fibre", Severity.WATCH),
        (CLOSED_CELL, "closed-cell foam", Severity.WATCH),
        ("open-cell sprayed foam", "open-cell foam", Severity.WATCH),
    ],
)
def test_fills(fill, outcome, severity):
    found = the_one(RULE, [EMPTY_WALL], {"empty wall": {"fill": fill}})
    assert (found.outcome, found.severity) == (outcome, severity)


@pytest.mark.parametrize(
    ("board", "outcome", "severity"),
    [
        ("rigid mineral wool board", "stone wool", Severity.GOOD),
        ("rigid glass fibre board", "glass wool board", Severity.GOOD),
        ("extruded polystyrene, modern", "polystyrene", Severity.GOOD),
        ("polyisocyanurate, foil faced, aged", "faced board", Severity.WATCH),
        ("wood-fibre insulation board", "wood fibre board", Severity.WATCH),
        ("wood-fibre sheathing board", "wood fibre board", Severity.WATCH),
        ("cork board", "cork", Severity.WATCH),
        ("cellular glass", "cellular glass", Severity.GOOD),
        ("gypsum sheathing", "gypsum board", Severity.WATCH),
    ],
)
def test_boards(board, outcome, severity):
    found = the_one(RULE, [WALL], {"wall of studs": {"outside": [solid(board, "2 in")]}})
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.facts["materials"] == (board,)


def test_nothing_is_said_as_found_or_of_other_boards():
    assert not findings(RULE, [WALL, EMPTY_WALL])
    assert not findings(RULE, [WALL], {"wall of studs": {"outside": [solid("plywood")]}})
