"""Bare ground under a floor."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.ground_floors import crawlspaces, floors_of
from server.core.findings.layers import ONE_PERM, diffusion_thickness, layers_of

SHEET = 10.0 * ONE_PERM  # m: a class I retarder, as a polyethylene sheet is


def _judge(case: Case) -> Iterator[Found]:
    spaces = crawlspaces(case.house)
    if not spaces:
        return
    if all(is_ground_covered(case, space) for space in spaces):
        yield Found("covered")
        return
    is_moved = not set(spaces).isdisjoint(case.moved_inside)
    bare = "bare, comes inside" if is_moved else "bare"
    outcome = {None: "not looked at", "covered": "covered", "bare": bare}
    yield Found(outcome[case.seen.crawl_ground_cover])


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
