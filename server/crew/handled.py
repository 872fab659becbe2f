"""What a crew touches under a strategy: the cautions go by it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.crew.before import (
    LEAD_PAINT,
    conditions_of,
    guesses_lead,
    is_wiring_settled,
)
from server.crew.cautions import working_cautions
from server.crew.surroundings import setting_of
from server.files import house_file as hf
from server.files.building import Project
from server.files.material_groups import group_of
from server.pricing.layer_work import LayerWork
from server.pricing.steps import Step
from server.pricing.work_item import WorkItem

SEALANT = "polyurethane sealant foam"  # what gaps are sealed with, whatever else is done
_SEALING = frozenset({Step.AIR_SEALING, Step.AIR_SEALING_BY_AREA})
_FRAMES = frozenset({Step.NEW_WINDOW, Step.NEW_DOOR, Step.JAMB_EXTENSION})


def cautions_of(
    project: Project, works: Sequence[LayerWork], items: Sequence[WorkItem]
) -> tuple[str, ...]:
    """The codes of the cautions of a strategy; none where it does nothing."""
    if not items:
        return ()
    file = project.file
    materials = materials_handled(works, items)
    groups = {group for material in materials if (group := group_of(material)) is not None}
    if any(item.step in _FRAMES for item in items):
        groups.add("cladding")  # frames and trim are painted, and reached on ladders
    touched = {item.component for item in items} | {None}
    setting = setting_of(project, works, items)
    conditions = [
        words
        for words, name in conditions_of(file)
        # harmless where nobody works
        if (name in touched or not LEAD_PAINT.search(words))
        and not (setting.paint_cleared and guesses_lead(words))
    ]
    codes = working_cautions(materials, groups, file.year_built, conditions, setting)
    return tuple(code for code in codes if code != "old wiring" or not is_wiring_settled(file.seen))


def materials_handled(works: Sequence[LayerWork], items: Sequence[WorkItem]) -> frozenset[str]:
    """Materials that come off, go on, are drilled through, or that sealing takes."""
    materials = {item.material for item in items if item.material is not None}
    steps = {item.step for item in items}
    if steps & _SEALING:
        materials.add(SEALANT)
    drilled = {item.component for item in items if item.step is Step.DRILL_OUTSIDE}
    drilled_inside = {item.component for item in items if item.step is Step.DRILL_INSIDE}
    for work in works:
        if work.component.name in drilled:
            materials.update(_solid(work.kept[-1:]))
        if work.component.name in drilled_inside:
            materials.update(_solid(work.kept[:1]))
    return frozenset(materials)


def _solid(layers: Sequence[hf.LayerEntry]) -> Iterator[str]:
    yield from (layer.material for layer in layers if isinstance(layer, hf.SolidEntry))
