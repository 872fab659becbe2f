"""From where each item of the work is done: a step alone does not tell when its turn comes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from server.core.findings.ground_floors import CRAWLSPACE
from server.core.house import GROUND, GROUND_KINDS, OUTDOORS, Kind
from server.files import house_file as hf
from server.files.material_groups import INSULATION
from server.pricing.layer_work import LayerWork
from server.pricing.work_item import WorkItem
from server.recipes.layers import is_framed, layer_group

_SKIN = INSULATION | {"cladding", "roofing"}
_ENVELOPE = ("wall", "roof")


class Place(StrEnum):
    """Where a crew stands, and how deep in the wall or roof it works.

    UNDER: outside, up to where the first board, strip or cladding lies. OVER: from there on out.
    OPENED_BAYS: bays whose skin is off and comes back. BAYS: closed ones; WRAPPED_BAYS: closed ones
    over which something comes outside. OUTSIDE_IN_GROUND: where somebody digs. WHOLE: no one part
    of the house.
    """

    WHOLE = "whole house"
    UNDER = "outside, under the board"
    OVER = "outside, the board and over it"
    OPENED_BAYS = "opened bays"
    WRAPPED_BAYS = "closed bays under a wrap"
    BAYS = "closed bays"
    ATTIC = "attic"
    BASEMENT = "basement"
    INSIDE = "rooms"
    OUTSIDE_IN_GROUND = "in the ground"


@dataclass(frozen=True, slots=True)
class PlacedItem:
    """An item of the work and from where it is done."""

    item: WorkItem
    place: Place


def placed_items(
    file: hf.HouseFile, works: Sequence[LayerWork], items: Sequence[WorkItem]
) -> tuple[PlacedItem, ...]:
    """Every item with its place, in the order of the take-off."""
    sides = {work.component.name: list(_sides(file, work)) for work in works}
    by_name = {work.component.name: work for work in works}
    placed = []
    for item in items:
        work = by_name.get(item.component or "")
        if work is None:
            place = Place.WHOLE
        else:
            place = _from_side(item, sides[work.component.name]) or _of_fill(file, work)
        placed.append(PlacedItem(item, place))
    return tuple(placed)


def _from_side(item: WorkItem, sides: list[tuple[hf.LayerEntry, Place]]) -> Place | None:
    """The place of the first layer left that an item can be for; None where it is for none."""
    for index, (layer, place) in enumerate(sides):
        if _is_for(item, layer):
            del sides[index]
            return place
    return None


def _is_for(item: WorkItem, layer: hf.LayerEntry) -> bool:
    if not item.step.value.startswith(("new ", "fit ", "furring", "spray")):
        return False
    match layer:
        case hf.SolidEntry():
            return (item.material, item.thickness) == (layer.material, layer.thickness.value)
        case hf.AirLayerEntry():
            return item.step.value == "furring strips" and item.thickness == layer.thickness.value
        case hf.ResistanceEntry():
            return item.material == (layer.name or str(layer.resistance.typed))
    return False


def _sides(file: hf.HouseFile, work: LayerWork) -> Iterator[tuple[hf.LayerEntry, Place]]:
    """The layers that come, in the order in which the take-off has their items."""
    room = room_of(file, work.component)
    for layer in reversed(work.inside):
        yield layer, room
    if not is_outer(work.component):
        cold = Place.OUTSIDE_IN_GROUND if work.component.to == GROUND else cold_side(file, work)
        yield from ((layer, cold) for layer in work.outside)
        return
    first = next((i for i, layer in enumerate(work.outside) if _is_skin(layer)), len(work.outside))
    for index, layer in enumerate(work.outside):
        yield layer, Place.UNDER if index < first else Place.OVER


def _is_skin(layer: hf.LayerEntry) -> bool:
    return isinstance(layer, hf.AirLayerEntry) or layer_group(layer) in _SKIN


def is_outer(component: hf.ComponentEntry) -> bool:
    """Whether it is a wall or roof whose outer face is reached from outdoors."""
    return component.kind in _ENVELOPE and component.to == OUTDOORS


def room_of(file: hf.HouseFile, component: hf.ComponentEntry) -> Place:
    """Where the crew stands that works on the warm side of a part."""
    return _place_of_space(file, component.from_)


def cold_side(file: hf.HouseFile, work: LayerWork) -> Place:
    """Where the crew stands that works on the cold side of a part between spaces."""
    if work.component.kind == "ceiling":
        return Place.ATTIC
    return _place_of_space(file, work.component.to)


def _place_of_space(file: hf.HouseFile, name: str) -> Place:
    """Spaces in the ground are basements, crawlspaces too; buffers else, under a roof, attics."""
    parts = [component for component in file.components if component.from_ == name]
    if name not in file.spaces or file.spaces[name].inside:
        return Place.INSIDE
    if any(Kind(part.kind) in GROUND_KINDS for part in parts) or CRAWLSPACE.search(name):
        return Place.BASEMENT
    if any(part.kind == "roof" for part in parts):
        return Place.ATTIC
    return Place.INSIDE


def _of_fill(file: hf.HouseFile, work: LayerWork) -> Place:
    """Where bays are filled, and where what comes off is taken off."""
    component = work.component
    if component.kind == "ceiling":
        return Place.ATTIC
    if is_framed(work.inside):
        return room_of(file, component)
    if (under := _under_what_comes(work)) is not None:
        return under
    room = room_of(file, component)
    if room is Place.BASEMENT:
        return room
    if component.access == "open" and component.kind in ("floor", "wall", "partition"):
        return cold_side(file, work)
    return Place.BAYS


def _under_what_comes(work: LayerWork) -> Place | None:
    """The bays of a wall or roof that gets something outside; None where they can wait for it."""
    if not is_outer(work.component) or not work.outside:
        return None
    if work.removed_outside:
        return Place.OPENED_BAYS
    return Place.WRAPPED_BAYS if _stays_closed(work) else None


def _stays_closed(work: LayerWork) -> bool:
    """Whether bays are filled through both skins, which stay."""
    is_open = work.component.access == "open" or any(fill.bay.open for fill in work.fills)
    return bool(work.fills) and not is_open and not work.removed_inside
