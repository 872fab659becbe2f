"""What is done to one component, as sentences for a contractor."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from gettext import gettext as _

from server.files import house_file as hf
from server.files.material_groups import MEMBRANES, group_of
from server.recipes import stock
from server.recipes.layers import (
    bay_for_fill,
    is_called,
    is_masonry,
    layer_group,
    left_after,
)
from server.units import format_quantity

_METRIC = re.compile(r"(mm|cm|m|met(er|re)s?)\s*$", re.IGNORECASE)


def change_in_words(change: hf.ChangeEntry, found: hf.AssemblyEntry | None) -> tuple[str, ...]:
    """One sentence for each job, in the order of the work."""
    if isinstance(change, str):
        return (_("Built anew as “{name}”").format(name=change),)
    layers = list(found.layers or []) if found is not None else []
    names = sorted(change.remove or [], key=lambda name: _position(layers, name), reverse=True)
    left = left_after(layers, names)
    return (
        *_taking_off(layers, names),
        *_filling(left, change),
        *_inside(change.inside or []),
        *_outside(change.outside or [], _place(left)),
    )


def _position(layers: Sequence[hf.LayerEntry], name: str) -> int:
    """How far out the outermost layer of a name lies: what lies outermost comes off first."""
    found = [index for index, layer in enumerate(layers) if is_called(layer, name)]
    return max(found, default=-1)


def _taking_off(layers: Sequence[hf.LayerEntry], names: Sequence[str]) -> Iterator[str]:
    if not names:
        return
    materials = [layer.material for layer in layers if isinstance(layer, hf.SolidEntry)]
    kept = left_after(layers, names)
    materials_kept = [layer.material for layer in kept if isinstance(layer, hf.SolidEntry)]
    if any("asbestos" in material.lower() for material in set(materials) - set(materials_kept)):
        yield _("Asbestos: whole pieces only, by those licensed to remove it")
    yield _("Take off: {layers}").format(layers=", ".join(names))


def _filling(layers: Sequence[hf.LayerEntry], change: hf.LayerChangeEntry) -> Iterator[str]:
    if change.fill is None and change.fill_thickness is None:
        return
    bay = bay_for_fill(layers)
    thickness = change.fill_thickness or (bay.framed.depth if bay is not None else None)
    if change.fill is None:
        if change.fill_thickness is not None:
            words = _("The fill brought to {thickness} in all")
            yield words.format(thickness=_typed(change.fill_thickness))
        return
    old = bay.framed.fill if bay is not None else "air"
    if old not in ("air", change.fill):
        if "vermiculite" in old.lower():
            yield _("Vermiculite: tested for asbestos before anyone disturbs it")
        yield _("Take out the old fill: {material}").format(material=old)
    yield _fill_words(change.fill).format(material=_capital(change.fill)) + (
        "" if thickness is None else ", " + _typed(thickness)
    )


def _fill_words(material: str) -> str:
    group = group_of(material)
    if group == "dense-pack":
        return _("{material} blown into the closed bays")
    if group == "loose-fill":
        return _("{material} blown to an even settled depth")
    return _("{material} fitted between the framing")


def _place(left: Sequence[hf.LayerEntry]) -> str:
    """What new layers outside stand on: the outermost layer that stays, papers not counted."""
    if not left:
        return _("on the outside")
    for layer in reversed(left):
        group = layer_group(layer)
        if group in MEMBRANES:
            continue
        if group == "sheathing":
            return _("outside the sheathing")
        if is_masonry(layer):
            is_brick = isinstance(layer, hf.SolidEntry) and "brick" in layer.material.lower()
            return _("on the brick") if is_brick else _("on the masonry")
        break
    return _("on the framing")


def _inside(layers: Sequence[hf.LayerEntry]) -> Iterator[str]:
    """From what stands inside already towards the room: the file's order, from its end."""
    for run in _runs(reversed(layers)):
        yield _added(run, _("on the inside face"))


def _outside(layers: Sequence[hf.LayerEntry], place: str) -> Iterator[str]:
    """Up to a ventilated gap on what is there; the gap with what hangs over it; then the skin."""
    gap: hf.AirLayerEntry | None = None
    is_skin = False
    for run in _runs(layers):
        first = run[0]
        if isinstance(first, hf.AirLayerEntry) and first.air_layer != "unventilated":
            gap, is_skin = first, True
        elif not is_skin:
            yield _added(run, place)
        elif gap is None:
            yield _("New {layer}").format(layer=_skin(run))
        else:
            words = _("New {layer} over a {thickness} ventilated gap")
            yield words.format(layer=_skin(run), thickness=_typed(gap.thickness))
            gap = None
    if gap is not None:
        yield _("A {thickness} ventilated gap").format(thickness=_typed(gap.thickness))


def _runs(layers: Sequence[hf.LayerEntry] | Iterator[hf.LayerEntry]) -> list[list[hf.LayerEntry]]:
    """Layers of one material next to each other belong together; all others stand alone."""
    numbered = enumerate(layers)

    def sort(pair: tuple[int, hf.LayerEntry]) -> str | int:
        index, layer = pair
        return layer.material if isinstance(layer, hf.SolidEntry) else index

    return [[layer for _index, layer in run] for _key, run in itertools.groupby(numbered, sort)]


def _added(run: Sequence[hf.LayerEntry], place: str) -> str:
    first = run[0]
    if isinstance(first, hf.SolidEntry):
        if layer_group(first) in MEMBRANES:
            return f"{_capital(first.material)}, {place}"
        words = _("{thickness} {material} {place}").format(
            thickness=_whole_thickness(run), material=first.material, place=place
        )
        return words + _in_layers(len(run)) + _fastened(first)
    if isinstance(first, hf.FramedEntry):
        return _framing(first.framed)
    if isinstance(first, hf.AirLayerEntry):
        words = _("A {thickness} still air layer {place}")
        return words.format(thickness=_typed(first.thickness), place=place)
    return _("{name} {place}").format(name=_capital(_resisting(first)), place=place)


def _fastened(layer: hf.SolidEntry) -> str:
    if layer.fasteners is None or not layer.fasteners.per_area.value:
        return ""
    count = format_quantity(layer.fasteners.per_area.value, "count_per_area", "ip")
    return _(", screws through it, {count}").format(count=count)


def _framing(framed: hf.Framing) -> str:
    if framed.fill == "air":
        words = _("{framing} framing, {depth}, its bays empty")
        return words.format(framing=_capital(framed.framing), depth=_typed(framed.depth))
    words = _("{material} between the framing, {thickness}")
    thickness = _typed(framed.fill_thickness or framed.depth)
    return words.format(material=_capital(framed.fill), thickness=thickness)


def _skin(run: Sequence[hf.LayerEntry]) -> str:
    """A layer outside the gap: its thickness only where one can choose it."""
    first = run[0]
    if not isinstance(first, hf.SolidEntry):
        return _resisting(first)
    if layer_group(first) in MEMBRANES | {"cladding", "roofing"}:
        return first.material
    return f"{_whole_thickness(run)} {first.material}"


def _resisting(layer: hf.LayerEntry) -> str:
    if isinstance(layer, hf.ResistanceEntry):
        return (layer.name or str(layer.resistance.typed)).removeprefix("new ")
    return layer.name or _("layer")


def _in_layers(count: int) -> str:
    if count == 1:
        return ""
    if count == 2:
        return _(", in two layers, joints offset")
    if count == 3:
        return _(", in three layers, joints offset")
    return _(", in {count} layers, joints offset").format(count=count)


def _whole_thickness(run: Sequence[hf.LayerEntry]) -> str:
    """As typed for one layer; the sum, to 1/16 in or to a millimetre, for several."""
    entries = [layer.thickness for layer in run if isinstance(layer, hf.SolidEntry)]
    if len(entries) == 1:
        return _typed(entries[0])
    metres = sum(entry.value for entry in entries)
    if _METRIC.search(_typed(entries[0])):
        return f"{metres * 1000.0:.0f} mm"
    return stock.inches(metres / stock.INCH)


def _typed(entry: hf.Entry) -> str:
    return str(entry.typed)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
