"""Fresh air after the house is made tighter."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.indoor_air import ROUNDING, fresh_air_needed, least_fresh_air, least_leaks


def _judge(case: Case) -> Iterator[Found]:
    needed = fresh_air_needed(case.house, case.moved_inside)
    least = least_leaks(case.house)
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
    together = least_fresh_air(case.house)
    has = Measured(Quantity(round(together, 5), "flow"), limit, True)
    if together < needed * ROUNDING:
        yield Found("too little", (), facts, has)
    else:
        yield Found("fan too small" if fan > 0.0 else "by leaks", (), facts, has)


RULE = Rule(
    "fresh air",
    {
        "by fan": Severity.GOOD,
        "fan too small": Severity.WATCH,
        "by leaks": Severity.WATCH,
        "too little": Severity.MEND,
    },
    _judge,
)
