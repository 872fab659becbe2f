"""What a change does to the layers of one component: what goes, what stays, what comes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from server.files import house_file as hf
from server.recipes.layers import (
    bay_for_fill,
    is_called,
    is_framed,
    is_masonry,
)

SAME = 1e-6  # m, or a share: two figures no further apart are one

Layers = tuple[hf.LayerEntry, ...]


@dataclass(frozen=True, slots=True)
class BayFill:
    """Bays as found, and what they hold after the work: "air" or a material; thickness in m."""

    bay: hf.Framing
    material: str
    thickness: float

    @property
    def old_thickness(self) -> float:
        """Of the fill as found, m; 0 for none."""
        return fill_thickness(self.bay)


@dataclass(frozen=True, slots=True)
class LayerWork:
    """The work on one component. Layers stand from inside to outside.

    is_unknown: only the U of what was found is known. is_rebuilt: only that of what is built.
    """

    component: hf.ComponentEntry
    kept: Layers = ()
    removed_inside: Layers = ()
    removed_outside: Layers = ()
    inside: Layers = ()
    outside: Layers = ()
    fills: tuple[BayFill, ...] = ()
    is_unknown: bool = False
    is_rebuilt: bool = False

    @property
    def stands_on_framing(self) -> bool:
        """Whether a framed layer that is added describes framing that was there already.

        A survey leaves out open joists, rafters and studs while nothing lies between them. Where
        it describes other framing, or the part is masonry, an added frame is a new one.
        """
        known = (*self.removed_inside, *self.kept, *self.removed_outside)
        if self.component.kind not in ("wall", "roof", "ceiling", "floor") or not known:
            return False
        return not is_framed(known) and not any(is_masonry(layer) for layer in known)


def fill_thickness(framing: hf.Framing) -> float:
    """Of the fill between framing, m; 0 for none."""
    if framing.fill == "air":
        return 0.0
    return (framing.fill_thickness or framing.depth).value


def layer_works(file: hf.HouseFile, strategy: hf.StrategyEntry) -> tuple[LayerWork, ...]:
    """The work on every component that a strategy changes, in the file's order."""
    works = (
        layer_work(file, component, change)
        for component in file.components
        if (change := strategy.change_of(component)) is not None
    )
    return tuple(work for work in works if work is not None)


def layer_work(
    file: hf.HouseFile, component: hf.ComponentEntry, change: hf.ChangeEntry
) -> LayerWork | None:
    """The work of a change on a component; None where it stays as found."""
    found: Layers = ()
    if component.assembly is not None:
        found = tuple(file.assemblies[component.assembly].layers or ())
    if isinstance(change, hf.LayerChangeEntry):
        return _changed(component, found, change)
    new = file.assemblies[change]
    if new.u_value is not None:
        if new.u_value.value == found_u_value(file, component):
            return None
        return LayerWork(component, removed_outside=found, is_unknown=not found, is_rebuilt=True)
    layers = tuple(new.layers or ())
    if not found:
        return LayerWork(component, outside=layers, is_unknown=True)
    return _exchanged(component, found, layers)


def found_u_value(file: hf.HouseFile, component: hf.ComponentEntry) -> float | None:
    """The U as found, W/(m2 K), of a component without layers; None of one with layers."""
    entry = component.u_value
    if entry is None and component.assembly is not None:
        entry = file.assemblies[component.assembly].u_value
    return None if entry is None else entry.value


def _changed(component: hf.ComponentEntry, found: Layers, change: hf.LayerChangeEntry) -> LayerWork:
    names = tuple(change.remove or ())
    gone = {
        index for index, layer in enumerate(found) if any(is_called(layer, name) for name in names)
    }
    first = min(set(range(len(found))) - gone, default=0)
    kept = tuple(layer for index, layer in enumerate(found) if index not in gone)
    return LayerWork(
        component,
        kept=kept,
        removed_inside=tuple(found[index] for index in sorted(gone) if index < first),
        removed_outside=tuple(found[index] for index in sorted(gone) if index >= first),
        inside=tuple(change.inside or ()),
        outside=tuple(change.outside or ()),
        fills=tuple(_fill(kept, change)),
    )


def _fill(kept: Layers, change: hf.LayerChangeEntry) -> Iterator[BayFill]:
    bay = bay_for_fill(kept)
    if bay is None or (change.fill is None and change.fill_thickness is None):
        return
    thickness = (change.fill_thickness or bay.framed.depth).value
    yield BayFill(bay.framed, change.fill or bay.framed.fill, thickness)


def _exchanged(component: hf.ComponentEntry, found: Layers, new: Layers) -> LayerWork | None:
    """One construction for another: crews work from the two faces, so one run of layers stays."""
    start, start_new, length = _common_run(found, new)
    end, end_new = start + length, start_new + length
    pairs = zip(found[start:end], new[start_new:end_new], strict=True)
    fills = tuple(fill for each, after in pairs for fill in _refilled(each, after))
    if length == len(found) == len(new) and not fills:
        return None
    return LayerWork(
        component,
        kept=found[start:end],
        removed_inside=found[:start],
        removed_outside=found[end:],
        inside=new[:start_new],
        outside=new[end_new:],
        fills=fills,
    )


def _common_run(found: Layers, new: Layers) -> tuple[int, int, int]:
    """Start in both and length of the longest run of layers that both have; the innermost one."""
    best = (0, 0, 0)
    for start in range(len(found)):
        for start_new in range(len(new)):
            length = _run_from(found[start:], new[start_new:])
            if length > best[2]:
                best = (start, start_new, length)
    return best


def _run_from(found: Sequence[hf.LayerEntry], new: Sequence[hf.LayerEntry]) -> int:
    length = 0
    for each, other in zip(found, new, strict=False):
        if not _is_same(each, other):
            break
        length += 1
    return length


def _is_same(found: hf.LayerEntry, new: hf.LayerEntry) -> bool:
    """Whether a layer can be the one that was there; what lies between framing may change."""
    if found.name and new.name and found.name != new.name:
        return False
    match found, new:
        case hf.SolidEntry(), hf.SolidEntry():
            return found.material == new.material and _is_near(found.thickness, new.thickness)
        case hf.AirLayerEntry(), hf.AirLayerEntry():
            return found.air_layer == new.air_layer and _is_near(found.thickness, new.thickness)
        case hf.ResistanceEntry(), hf.ResistanceEntry():
            return _is_near(found.resistance, new.resistance)
        case hf.FramedEntry(), hf.FramedEntry():
            frame, other = found.framed, new.framed
            return (
                frame.framing == other.framing
                and _is_near(frame.depth, other.depth)
                and _is_near(frame.fraction, other.fraction)
            )
    return False


def _is_near(one: hf.Entry, other: hf.Entry) -> bool:
    return abs(one.value - other.value) <= SAME


def _refilled(found: hf.LayerEntry, new: hf.LayerEntry) -> Iterator[BayFill]:
    if not (isinstance(found, hf.FramedEntry) and isinstance(new, hf.FramedEntry)):
        return
    thickness = fill_thickness(new.framed)
    is_other = found.framed.fill != new.framed.fill
    if is_other or abs(thickness - fill_thickness(found.framed)) > SAME:
        yield BayFill(found.framed, new.framed.fill, thickness)
