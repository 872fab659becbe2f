"""A cellar or crawlspace brought inside, or left out in the cold: what has to come with it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.crawl_ground import is_ground_covered
from server.core.findings.ground_floors import has_concrete_floor
from server.core.findings.layers import insulates
from server.core.findings.roof_line import BARE_ABOVE
from server.core.house import GROUND, Kind

PIPES_FREEZE, COLD_MONTH = 0.0, 7.0  # deg C: in warmer winters no pipe freezes (our judgement)


def _judge(case: Case) -> Iterator[Found]:
    yield from _left_cold(case)
    for space in case.moved_inside:
        walls = [part for part in case.parts if _is_wall_of(part, space)]
        if not any(part.component.to_space == GROUND for part in walls):
            continue
        bare = tuple(part.name for part in walls if _is_bare(case, part))
        if bare:
            yield Found("walls left bare", bare)
        if not has_concrete_floor(case.house, space):
            is_dry = is_ground_covered(case, space)
            outcome = "crawlspace closed, covered" if is_dry else "crawlspace closed"
            yield Found(outcome, facts={"space": space})


def _left_cold(case: Case) -> Iterator[Found]:
    """A cellar that stays outside under a floor that is newly insulated."""
    for part in case.changed:
        below = part.component.to_space
        in_ground = any(
            p.component.from_space == below and p.component.to_space == GROUND for p in case.parts
        )
        stays_out = below not in case.moved_inside
        is_insulated = part.kind is Kind.FLOOR and any(map(insulates, part.added))
        if is_insulated and in_ground and stays_out and _can_freeze(case):
            yield Found("left colder", (part.name,), {"space": below})


def _can_freeze(case: Case) -> bool:
    """Whether winters come near freezing: by the design day, else by the coldest month."""
    climate = case.house.climate
    if climate.heating_design_temperature is not None:
        return float(np.min(climate.heating_design_temperature)) <= PIPES_FREEZE
    return float(np.min(climate.mean_temperature)) <= COLD_MONTH


def _is_wall_of(part: Part, space: str) -> bool:
    return part.component.from_space == space and part.kind in (Kind.WALL, Kind.BASEMENT_WALL)


def _is_bare(case: Case, part: Part) -> bool:
    if not part.is_shell:
        return False
    if part.layers:
        return not any(map(insulates, part.layers))
    return float(case.after.components[part.index].u_value) > BARE_ABOVE


RULE = Rule(
    "cellar",
    {
        "left colder": Severity.WATCH,
        "walls left bare": Severity.MEND,
        "crawlspace closed": Severity.MEND,
        "crawlspace closed, covered": Severity.WATCH,
    },
    _judge,
)
