"""Everything that a crew does and buys under one strategy."""

from __future__ import annotations

from server.files import house_file as hf
from server.files.building import Project
from server.pricing.house_items import air_items, edge_items, equipment_items, job_items
from server.pricing.layer_items import layer_items
from server.pricing.layer_work import LayerWork, layer_works
from server.pricing.opening_items import is_opening, opening_items
from server.pricing.work_item import WorkItem

__all__ = ["WorkItem", "take_off"]


def take_off(project: Project, strategy: hf.StrategyEntry) -> tuple[WorkItem, ...]:
    """The items of a strategy that fits the house, each thing once; none where nothing is done.

    What is done at junctions beyond the parts that meet there is not in it: of a junction only
    its transmittance is known.
    """
    file = project.file
    works = layer_works(file, strategy)
    items = [item for work in works if not _is_new_opening(work) for item in layer_items(work)]
    items += opening_items(file, strategy, works)
    items += edge_items(file, strategy)
    items += air_items(file, strategy)
    items += equipment_items(file, strategy)
    if not items:
        return ()
    return (*items, *job_items(file, works, [item.step for item in items]))


def _is_new_opening(work: LayerWork) -> bool:
    """An opening known by its U is bought whole, so it is counted with the openings."""
    return is_opening(work.component) and work.is_rebuilt
