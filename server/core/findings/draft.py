"""Appliances that take their air from the rooms, in a house that is made tighter."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.air import BlowerDoor
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import FOAMS, materials_of
from server.core.house import House

STOPS_AIR = FOAMS | {"membrane", "air-tight", "dense-pack"}


def _judge(case: Case) -> Iterator[Found]:
    answer = case.seen.combustion
    if answer is None:
        yield Found("not looked at")
    elif answer == "open flue":
        yield Found(_of_open_flue(case))
    else:
        yield Found(answer)


def _of_open_flue(case: Case) -> str:
    if _one_way(case.house) > _one_way(case.found.house):
        return "open flue, fan draws"
    return "open flue, tighter" if _is_tighter(case) else "open flue"


def _one_way(house: House) -> float:
    """What a fan that is not balanced moves, m3/s."""
    return 0.0 if house.ventilation.balanced else float(house.ventilation.flow)


def _is_tighter(case: Case) -> bool:
    """Whether a strategy takes away air: by its figures, or by what it closes and packs.

    A space whose vents are closed no longer feeds what burns there.
    """
    if case.moved_inside or any(map(_stops_air, case.changed)):
        return True
    before, after = case.found.house.leakage, case.house.leakage
    if isinstance(before, BlowerDoor) and isinstance(after, BlowerDoor):
        return float(after.flow_at_50_pa) < float(before.flow_at_50_pa)
    return case.strategy is not None


def _stops_air(part: Part) -> bool:
    """Whether what is added to the shell lets hardly any air through, dense-pack among it."""
    groups = {material.group for material in materials_of(part.added)}
    return part.is_shell and bool(groups & STOPS_AIR)


RULE = Rule(
    "draft and carbon monoxide",
    {
        "open flue, fan draws": Severity.MEND,
        "open flue, tighter": Severity.MEND,
        "open flue": Severity.WATCH,
        "sealed": Severity.WATCH,
        "none": Severity.GOOD,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
