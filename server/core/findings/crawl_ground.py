"""Bare ground under a floor."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.ground_floors import floors_of, has_concrete_floor
from server.core.findings.layers import ONE_PERM, diffusion_thickness, layers_of
from server.core.house import Kind

SHEET = 10.0 * ONE_PERM  # m: a class I retarder, as a polyethylene sheet is


def _judge(case: Case) -> Iterator[Found]:
    spaces = _crawlspaces(case)
    if not spaces:
        return
    if all(is_ground_covered(case, space) for space in spaces):
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
    bare = [name for name in known if not has_concrete_floor(case.house, name)]
    return [name for name in bare if not _is_garage(name)]


def _is_garage(space: str) -> bool:
    return "garage" in space.lower() or "carport" in space.lower()


def is_ground_covered(case: Case, space: str) -> bool:
    """Whether a sheet that lets no vapour through lies on the ground of a space, by its figures.

    Shapes: one space. Range: any. Raises: nothing. Source: definition.
    """
    layers = (layer for floor in floors_of(case.house, space) for layer in layers_of(floor))
    return any((diffusion_thickness(layer) or 0.0) >= SHEET for layer in layers)


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
