"""A chimney that stays in use."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case


def _judge(case: Case) -> Iterator[Found]:
    answer = case.seen.chimney
    yield Found("not looked at" if answer is None else answer)


RULE = Rule(
    "chimney",
    {
        "unlined": Severity.MEND,
        "lined": Severity.WATCH,
        "none in use": Severity.GOOD,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
