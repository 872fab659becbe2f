"""A cellar or crawlspace brought inside: what has to come with it."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.energy_code_parts import has_concrete_floor
from server.core.findings.layers import insulates
from server.core.findings.roof_line import BARE_ABOVE
from server.core.house import GROUND, Kind


def _judge(case: Case) -> Iterator[Found]:
    for space in case.moved_inside:
        walls = [part for part in case.parts if _is_wall_of(part, space)]
        if not any(part.component.to_space == GROUND for part in walls):
            continue
        bare = tuple(part.name for part in walls if _is_bare(case, part))
        if bare:
            yield Found("walls left bare", bare)
        if not has_concrete_floor(case, space):
            yield Found("crawlspace closed", facts={"space": space})


def _is_wall_of(part: Part, space: str) -> bool:
    return part.component.from_space == space and part.kind in (Kind.WALL, Kind.BASEMENT_WALL)


def _is_bare(case: Case, part: Part) -> bool:
    if not part.is_shell:
        return False
    if part.layers:
        return not any(map(insulates, part.layers))
    return float(case.after.components[part.index].u_value) > BARE_ABOVE


RULE = Rule(
    "cellar brought inside",
    {"walls left bare": Severity.MEND, "crawlspace closed": Severity.MEND},
    _judge,
)
