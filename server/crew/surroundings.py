"""In what surroundings the work is done: a ditch, a crawlspace. Some cautions go by it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.findings.ground_floors import crawlspaces
from server.core.house import GROUND
from server.crew.before import is_paint_cleared
from server.crew.cautions import Setting
from server.crew.places import Place, placed_items
from server.files.building import Project
from server.pricing.layer_work import LayerWork
from server.pricing.steps import Step
from server.pricing.work_item import WorkItem


def setting_of(project: Project, works: Sequence[LayerWork], items: Sequence[WorkItem]) -> Setting:
    """The surroundings of a strategy that does something."""
    return Setting(
        paint_cleared=is_paint_cleared(project.file.seen),
        digs=_digs(works, items),
        crawls=_crawls(project, works, items),
    )


def _digs(works: Sequence[LayerWork], items: Sequence[WorkItem]) -> bool:
    """Whether somebody digs beside the house."""
    if any(item.step is Step.EDGE_TRENCH for item in items):
        return True
    in_ground = (work for work in works if work.component.to == GROUND)
    return any(work.outside or work.removed_outside for work in in_ground)


def _crawls(project: Project, works: Sequence[LayerWork], items: Sequence[WorkItem]) -> bool:
    """Whether somebody works in a crawlspace, as far as the survey tells."""
    spaces = crawlspaces(project.house)
    seen = project.file.seen
    if spaces and seen is not None and seen.crawl_ground_cover == "bare":
        return True  # somebody covers it
    return not set(spaces).isdisjoint(_worked_in(project, works, items))


def _worked_in(
    project: Project, works: Sequence[LayerWork], items: Sequence[WorkItem]
) -> Iterator[str]:
    """Spaces below or beside parts that are reached from there."""
    sides = {part.name: (part.from_, part.to) for part in project.file.components}
    from_inside = {item.component for item in items if item.step is Step.DRILL_INSIDE}
    for placed in placed_items(project.file, works, items):
        name = placed.item.component
        if name is None:
            continue
        if placed.place is Place.BASEMENT:
            yield from sides[name]
        elif placed.place is Place.BAYS and name not in from_inside:
            yield sides[name][1]
