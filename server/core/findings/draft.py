"""Appliances that take their air from the rooms, in a house that is made tighter."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.air import BlowerDoor
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case


def _judge(case: Case) -> Iterator[Found]:
    answer = case.seen.combustion
    if answer is None:
        yield Found("not looked at")
    elif answer == "open flue":
        yield Found("open flue, tighter" if _is_tighter(case) else "open flue")
    else:
        yield Found(answer)


def _is_tighter(case: Case) -> bool:
    """Whether a strategy lets less air through the shell than was found."""
    before, after = case.found.house.leakage, case.house.leakage
    if isinstance(before, BlowerDoor) and isinstance(after, BlowerDoor):
        return float(after.flow_at_50_pa) < float(before.flow_at_50_pa)
    return case.strategy is not None


RULE = Rule(
    "draft and carbon monoxide",
    {
        "open flue, tighter": Severity.MEND,
        "open flue": Severity.WATCH,
        "sealed": Severity.WATCH,
        "none": Severity.GOOD,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
