"""The sum of U times area around what is inside, beside that of a house built to the code."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.energy_code_parts import code_limits, limit_of


def _judge(case: Case) -> Iterator[Found]:
    if case.strategy is None:
        return
    limits = code_limits(case)
    if limits is None:
        return  # the rule part by part has said so
    has = limit = 0.0
    for part in case.parts:
        held = limit_of(case, part, limits) if part.is_shell else None
        if held is not None:
            area = float(part.component.area)
            has += float(case.after.components[part.index].u_value) * area
            limit += held[1] * area
    if not limit:
        return
    assert case.zone is not None
    facts: dict[str, Fact] = {
        "edition": case.site.code.edition,
        "zone": f"{case.zone.number}{case.zone.letter}",
    }
    measured = Measured(
        Quantity(round(has, 2), "conductance"), Quantity(round(limit, 2), "conductance")
    )
    yield Found("within" if has <= limit else "above", (), facts, measured)


RULE = Rule("energy code, whole house", {"within": Severity.GOOD, "above": Severity.WATCH}, _judge)
