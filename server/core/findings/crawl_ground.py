"""Bare ground under a floor."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.energy_code_parts import FLOORS, has_concrete_floor
from server.core.findings.layers import ONE_PERM, diffusion_thickness
from server.core.house import Kind

SHEET = 10.0 * ONE_PERM  # m: a class I retarder, as a polyethylene sheet is


def _judge(case: Case) -> Iterator[Found]:
    spaces = _crawlspaces(case)
    if not spaces:
        return
    if all(_is_covered(case, space) for space in spaces):
        yield Found("covered")
        return
    is_moved = not set(spaces).isdisjoint(case.moved_inside)
    bare = "bare, comes inside" if is_moved else "bare"
    outcome = {None: "not looked at", "covered": "covered", "bare": bare}
    yield Found(outcome[case.seen.crawl_ground_cover])


def _crawlspaces(case: Case) -> list[str]:
    """Spaces below a floor whose ground is not under concrete; a garage is none."""
    below = {part.component.to_space for part in case.parts if part.kind is Kind.FLOOR}
    known = [space.name for space in case.house.spaces if space.name in below]
    return [name for name in known if not has_concrete_floor(case, name) and not _is_garage(name)]


def _is_garage(space: str) -> bool:
    return "garage" in space.lower() or "carport" in space.lower()


def _is_covered(case: Case, space: str) -> bool:
    """Whether a sheet that lets no vapour through lies on the ground, by its figures."""
    floors = (p for p in case.parts if p.component.from_space == space and p.kind in FLOORS)
    return any(
        (diffusion_thickness(layer) or 0.0) >= SHEET for part in floors for layer in part.layers
    )


RULE = Rule(
    "crawlspace ground",
    {
        "covered": Severity.GOOD,
        "bare": Severity.MEND,
        "bare, comes inside": Severity.MEND,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
