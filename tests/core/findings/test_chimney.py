"""A chimney that stays in use."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.chimney import RULE
from tests.core.findings.cases import the_one
from tests.recipes.houses import WALL


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("unlined", "unlined", Severity.MEND),
        ("lined", "lined", Severity.WATCH),
        ("none in use", "none in use", Severity.GOOD),
        (None, "not looked at", Severity.OPEN),
    ],
)
def test_each_answer(answer, outcome, severity):
    found = the_one(RULE, [WALL], seen={"chimney": answer})
    assert (found.outcome, found.severity, found.components) == (outcome, severity, ())
