"""Plaster before bays behind it are packed under pressure."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.assembly import SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.closed_bays import refilled


def _judge(case: Case) -> Iterator[Found]:
    for part in case.changed:
        bay = refilled(part)
        if bay is None or bay.fill is None or bay.fill.group != "dense-pack":
            continue
        if any(isinstance(x, SolidLayer) and x.material.group == "plaster" for x in part.layers):
            answers = {None: "not looked at", "sound": "sound", "loose": "loose"}
            yield Found(answers[case.seen.plaster], (part.name,))


RULE = Rule(
    "plaster before dense-pack",
    {"sound": Severity.GOOD, "loose": Severity.MEND, "not looked at": Severity.OPEN},
    _judge,
)
