"""Which questions of the survey do not apply, as far as the survey itself tells."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from server.core.assembly import Layer
from server.core.findings.brick_veneer import veneer_at
from server.core.findings.case import Case
from server.core.findings.ground_floors import crawlspaces
from server.core.findings.layers import materials_of
from server.core.house import Kind
from server.files.site import site_of
from server.pages.house.context import OpenHouse

_BELOW_GRADE = (Kind.BASEMENT_WALL, Kind.BASEMENT_FLOOR)


def not_applying(opened: OpenHouse) -> frozenset[str]:
    """The questions that do not apply, by name."""
    case = Case(opened.result, opened.result, None, site_of(opened.house))
    return frozenset(name for name, applies in _APPLIES.items() if not applies(case))


def _has_crawlspace(case: Case) -> bool:
    return bool(crawlspaces(case.house))


def _is_below_grade(case: Case) -> bool:
    return _has_crawlspace(case) or any(part.kind in _BELOW_GRADE for part in case.parts)


def _has_veneer(case: Case) -> bool:
    """Whether any wall has a masonry skin; one of which only U is known may have."""
    walls = [part for part in case.parts if part.kind is Kind.WALL]
    return any(not part.layers or veneer_at(part.layers) is not None for part in walls)


def _has_plaster(case: Case) -> bool:
    """Whether plaster is anywhere; a wall of which only U is known may have some."""
    if any(part.kind is Kind.WALL and not part.layers for part in case.parts):
        return True
    return any(material.group == "plaster" for material in materials_of(_all_layers(case)))


def _all_layers(case: Case) -> Iterator[Layer]:
    for part in case.parts:
        yield from part.layers


_APPLIES: Mapping[str, Callable[[Case], bool]] = {
    "below_grade": _is_below_grade,
    "crawl_ground_cover": _has_crawlspace,
    "flues_through_attic": lambda case: case.seen.chimney != "none in use",
    "plaster": _has_plaster,
    "veneer_weeps": _has_veneer,
}
