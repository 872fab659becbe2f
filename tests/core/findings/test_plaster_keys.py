"""Plaster before bays behind it are packed under pressure."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.plaster_keys import RULE
from tests.core.findings.cases import EMPTY_WALL, findings, the_one
from tests.recipes.houses import WALL

PACKED = {"wall of studs": {"fill": "dense-pack cellulose"}}
LOOSE = {"plaster": "loose"}


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("sound", "sound", Severity.GOOD),
        ("loose", "loose", Severity.MEND),
        (None, "not looked at", Severity.OPEN),
    ],
)
def test_plaster_that_is_packed_against(answer, outcome, severity):
    found = the_one(RULE, [WALL], PACKED, seen={"plaster": answer})
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.components == ("wall of studs",)


def test_nothing_presses_on_plaster_without_dense_pack():
    assert not findings(RULE, [WALL], seen=LOOSE)
    batts = {"wall of studs": {"fill": "mineral wool batt"}}
    assert not findings(RULE, [WALL], batts, seen=LOOSE)


def test_where_the_plaster_comes_off_or_there_is_none_nothing_is_asked():
    bare = {"wall of studs": {"fill": "dense-pack cellulose", "remove": ["inside face"]}}
    assert not findings(RULE, [WALL], bare, seen=LOOSE)
    board = {"empty wall": {"fill": "dense-pack cellulose"}}
    assert not findings(RULE, [EMPTY_WALL], board, seen=LOOSE)
