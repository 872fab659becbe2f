"""Bare ground under a floor."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.layers import materials_of
from server.core.house import Kind

_FLOORS = (Kind.BASEMENT_FLOOR, Kind.SLAB)


def _judge(case: Case) -> Iterator[Found]:
    if not _has_crawlspace(case):
        return
    outcome = {None: "not looked at", "covered": "covered", "bare": "bare"}
    yield Found(outcome[case.seen.crawl_ground_cover])


def _has_crawlspace(case: Case) -> bool:
    """Whether a floor has a space below it whose ground is not under concrete."""
    below = {part.component.to_space for part in case.parts if part.kind is Kind.FLOOR}
    known = {space.name for space in case.house.spaces}
    return any(space in known and not _is_floored(case, space) for space in below)


def _is_floored(case: Case, space: str) -> bool:
    floors = (p for p in case.parts if p.component.from_space == space and p.kind in _FLOORS)
    return any(
        material.group == "concrete" for part in floors for material in materials_of(part.layers)
    )


RULE = Rule(
    "crawlspace ground",
    {"covered": Severity.GOOD, "bare": Severity.MEND, "not looked at": Severity.OPEN},
    _judge,
    about_the_site=True,
)
