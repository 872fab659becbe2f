"""Fresh air after the house is made tighter."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.indoor_air import ROUNDING, fresh_air_needed, least_leaks


def _judge(case: Case) -> Iterator[Found]:
    needed, least = fresh_air_needed(case.house), least_leaks(case.house)
    fan = float(case.house.ventilation.flow)
    facts: dict[str, Fact] = {
        "fan": Quantity(fan, "flow"),
        "leaks": Quantity(round(least, 5), "flow"),
        "needed": Quantity(round(needed, 5), "flow"),
    }
    limit = Quantity(round(needed, 5), "flow")
    if fan >= needed * ROUNDING:
        yield Found("by fan", (), facts, Measured(Quantity(fan, "flow"), limit, True))
        return
    has = Measured(Quantity(round(fan + least, 5), "flow"), limit, True)
    yield Found("by leaks" if fan + least >= needed * ROUNDING else "too little", (), facts, has)


RULE = Rule(
    "fresh air",
    {"by fan": Severity.GOOD, "by leaks": Severity.WATCH, "too little": Severity.MEND},
    _judge,
)
