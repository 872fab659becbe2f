"""Items for windows, skylights and doors: new ones, and the deeper reveals of wrapped walls."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from gettext import gettext as _

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.files.material_groups import INSULATION
from server.pricing.layer_work import LayerWork, found_u_value
from server.pricing.steps import Step
from server.pricing.work_item import SQUARE_FOOT, WorkItem
from server.recipes.layers import layer_group

# m2 of one, where nobody counted: a window of 3 ft by 5 ft, a door of 3 ft by 7 ft.
AREA_OF_ONE = {
    "window": 15.0 * SQUARE_FOOT,
    "skylight": 15.0 * SQUARE_FOOT,
    "door": 21.0 * SQUARE_FOOT,
}
SAME = 1e-9  # W/(m2 K), or of SHGC

_NEW = {
    "window": Step.NEW_WINDOW,
    "skylight": Step.NEW_SKYLIGHT,
    "door": Step.NEW_DOOR,
}


def is_opening(component: hf.ComponentEntry) -> bool:
    """Whether it is a window, a skylight or a door."""
    return component.kind in _NEW


def opening_items(
    file: hf.HouseFile, strategy: hf.StrategyEntry, works: Sequence[LayerWork]
) -> Iterator[WorkItem]:
    """New openings, and an extension for each in a wall or roof that is insulated outside."""
    wrapped = {work.component.name for work in works if _is_wrapped(work)}
    for component in file.components:
        if not is_opening(component):
            continue
        yield from _new(file, strategy, component)
        if _is_within(file, component, wrapped):
            yield _extension(component)


def _count(component: hf.ComponentEntry) -> int:
    return max(1, math.ceil(component.area.value / AREA_OF_ONE[component.kind] - 1e-9))


def _new(
    file: hf.HouseFile, strategy: hf.StrategyEntry, component: hf.ComponentEntry
) -> Iterator[WorkItem]:
    """A storm, a new opening where its U changes, sun control where only its SHGC does."""
    figures = (strategy.openings or {}).get(component.name, hf.OpeningEntry.model_construct())
    shgc = component.shgc.value if component.shgc else None
    wanted = figures.u_value or _u_value_of(file, strategy.change_of(component))
    if figures.storm_u_value is not None:
        yield _opening_item(component, Step.NEW_STORM, _("Storm over the {opening}"))
    if _differs(wanted, found_u_value(file, component)):
        yield _opening_item(component, _NEW[component.kind], _("New {opening}"))
    elif figures.storm_u_value is None and _differs(figures.shgc, shgc):
        words = _("Sun control of the glass")
        area = component.area.value
        yield WorkItem(component.name, Step.SUN_CONTROL, None, area, "ft2", None, words)


def _u_value_of(file: hf.HouseFile, change: hf.ChangeEntry | None) -> hf.Entry | None:
    return file.assemblies[change].u_value if isinstance(change, str) else None


def _differs(wanted: hf.Entry | None, found: float | None) -> bool:
    return wanted is not None and (found is None or abs(wanted.value - found) > SAME)


def _opening_item(component: hf.ComponentEntry, step: Step, words: str) -> WorkItem:
    words = words.format(opening=component.kind) + _(", their number estimated from the area")
    count = float(_count(component))
    return WorkItem(component.name, step, None, count, "opening", None, words, estimated=True)


def _is_wrapped(work: LayerWork) -> bool:
    """Whether a wall or roof towards outdoors gets insulation outside."""
    component = work.component
    if component.kind not in ("wall", "roof") or component.to != OUTDOORS:
        return False
    return any(layer_group(layer) in INSULATION for layer in work.outside)


def _is_within(file: hf.HouseFile, opening: hf.ComponentEntry, wrapped: set[str]) -> bool:
    """Whether the greater part of the walls that may hold an opening is wrapped."""
    area = {part.name: part.area.value for part in holders(file, opening)}
    wrapped_area = sum(each for name, each in area.items() if name in wrapped)
    return wrapped_area > 0.5 * sum(area.values())


def holders(file: hf.HouseFile, opening: hf.ComponentEntry) -> list[hf.ComponentEntry]:
    """The walls, or roofs, that may hold an opening.

    Those between the same spaces; of them those that face the same way, where there are any.
    """
    kind = "roof" if opening.kind == "skylight" else "wall"
    between = [
        part
        for part in file.components
        if part.kind == kind and (part.from_, part.to) == (opening.from_, opening.to)
    ]
    return [part for part in between if _faces_as(part, opening)] or between


def _faces_as(part: hf.ComponentEntry, opening: hf.ComponentEntry) -> bool:
    if part.azimuth is None or opening.azimuth is None:
        return False
    return math.isclose(part.azimuth.value % 360.0, opening.azimuth.value % 360.0, abs_tol=0.5)


def _extension(component: hf.ComponentEntry) -> WorkItem:
    if component.kind == "skylight":
        return _opening_item(component, Step.CURB_EXTENSION, _("Curb extension at the {opening}"))
    return _opening_item(component, Step.JAMB_EXTENSION, _("Jamb extension at the {opening}"))
