"""Soil gas, before and after the house is made tighter."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.house import GROUND


def _judge(case: Case) -> Iterator[Found]:
    if not any(part.component.to_space == GROUND for part in case.parts):
        return
    answers = {None: "not tested", "below 4 pCi/L": "low", "4 pCi/L or more": "high"}
    yield Found(answers[case.seen.radon])


RULE = Rule(
    "radon",
    {"low": Severity.WATCH, "high": Severity.MEND, "not tested": Severity.OPEN},
    _judge,
)
