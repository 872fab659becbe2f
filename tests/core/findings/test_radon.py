"""Soil gas."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.radon import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import CEILING, SLAB, WALL


# EPA: act at 4 pCi/L (memory).
@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("below 4 pCi/L", "low", Severity.WATCH),
        ("4 pCi/L or more", "high", Severity.MEND),
        (None, "not tested", Severity.OPEN),
    ],
)
def test_radon_of_a_house_on_the_ground(answer, outcome, severity):
    found = the_one(RULE, [WALL, SLAB], seen={"radon": answer})
    assert (found.outcome, found.severity) == (outcome, severity)


def test_nothing_is_said_of_a_dwelling_that_does_not_touch_the_ground():
    assert not findings(RULE, [WALL, CEILING], seen={"radon": "4 pCi/L or more"})
