"""Items for the layers of one component: what comes off, what fills the bays, what goes on."""

from __future__ import annotations

from collections.abc import Iterator
from gettext import gettext as _

from server.files import house_file as hf
from server.files.material_groups import INSULATION, MEMBRANES, group_of
from server.pricing.layer_work import BayFill, LayerWork, fill_thickness
from server.pricing.steps import Step
from server.pricing.work_item import INCH, WorkItem
from server.recipes import stock
from server.recipes.layers import layer_group

STRIP_SPACING = 16.0 * INCH  # m, strips over the studs, common practice
STRIP_WIDTH = 2.5 * INCH  # m, a strip sawn from a 1x3, common practice
STRIP_MATERIAL = "softwood"
BLOWN = frozenset({"dense-pack", "loose-fill", "sprayed-foam"})

_OFF_BY_GROUP = {
    "cladding": Step.TAKE_OFF_CLADDING,
    "roofing": Step.TAKE_OFF_ROOFING,
    "sheathing": Step.TAKE_OFF_SHEATHING,
    "plaster": Step.TAKE_OFF_LINING,
    "board": Step.TAKE_OFF_LINING,
    "flooring": Step.TAKE_OFF_LINING,
    **dict.fromkeys(MEMBRANES, Step.TAKE_OFF_MEMBRANE),
    **dict.fromkeys(INSULATION, Step.TAKE_OFF_INSULATION),
}
_ON_BY_GROUP = {
    **dict.fromkeys(INSULATION, Step.NEW_BOARD),
    **dict.fromkeys(MEMBRANES, Step.NEW_MEMBRANE),
    "cladding": Step.NEW_CLADDING,
    "roofing": Step.NEW_ROOFING,
    "sheathing": Step.NEW_SHEATHING,
    "plaster": Step.NEW_LINING,
    "board": Step.NEW_LINING,
    "batt": Step.NEW_BATTS,
    "dense-pack": Step.NEW_FILL,
    "loose-fill": Step.NEW_FILL,
    "sprayed-foam": Step.NEW_SPRAYED_FOAM,
}


def layer_items(work: LayerWork) -> Iterator[WorkItem]:
    """Every item of the work on a component, in the order of the work."""
    component = work.component
    if work.is_unknown:
        words = _("Take off what was found, its layers unknown")
        yield _area_item(component, Step.TAKE_OFF_LAYER, None, None, words)
        yield _area_item(component, Step.DISPOSAL, None, None, _("Disposal of what came off"))
    for layer in (*reversed(work.removed_outside), *work.removed_inside):
        yield from _off(component, layer)
    for fill in work.fills:
        yield from _filled(work, fill)
    for layer in (*reversed(work.inside), *work.outside):
        yield from _on(work, layer)
    if work.is_rebuilt:
        words = _("Built anew, its layers unknown")
        yield _area_item(component, Step.BUILD_ANEW, None, None, words)


def _area_item(
    component: hf.ComponentEntry,
    step: Step,
    material: str | None,
    thickness: float | None,
    words: str,
    share: float = 1.0,
) -> WorkItem:
    """An item by area; share: of the component's area."""
    area = component.area.value * share
    return WorkItem(component.name, step, material, area, "ft2", thickness, words)


# Taking off


def _off(component: hf.ComponentEntry, layer: hf.LayerEntry) -> Iterator[WorkItem]:
    if isinstance(layer, hf.AirLayerEntry):
        return
    if isinstance(layer, hf.FramedEntry):
        yield from _taken_out(component, layer.framed)
        name, thickness = layer.framed.framing, layer.framed.depth.value
        words = _("Take down the framing of {material}").format(material=name)
        yield _area_item(component, Step.TAKE_OFF_LAYER, name, thickness, words)
        yield _disposal(component, name, thickness)
        return
    step = _OFF_BY_GROUP.get(layer_group(layer) or "", Step.TAKE_OFF_LAYER)
    if isinstance(layer, hf.ResistanceEntry):
        name = layer.name or _("layer")
        words = _("Take off {material}").format(material=name)
        yield _area_item(component, step, name, None, words)
        yield _disposal(component, name, None)
        return
    yield from _solid_off(component, layer, step)


def _solid_off(
    component: hf.ComponentEntry, layer: hf.SolidEntry, step: Step
) -> Iterator[WorkItem]:
    name, thickness = layer.material, layer.thickness.value
    if "asbestos" in name.lower():
        # whoever is licensed for it also disposes of it
        words = _("Take off and dispose of {material}, by those licensed for it")
        words = words.format(material=name)
        yield _area_item(component, Step.TAKE_OFF_ASBESTOS, name, thickness, words)
        return
    words = _("Take off {material}").format(material=name)
    yield _area_item(component, step, name, thickness, words)
    yield _disposal(component, name, thickness)


def _disposal(
    component: hf.ComponentEntry, material: str, thickness: float | None, share: float = 1.0
) -> WorkItem:
    words = _("Dispose of {material}").format(material=material)
    return _area_item(component, Step.DISPOSAL, material, thickness, words, share)


def _taken_out(component: hf.ComponentEntry, bay: hf.Framing) -> Iterator[WorkItem]:
    """The fill of bays; vermiculite goes by those licensed for it, with its disposal."""
    thickness = fill_thickness(bay)
    share = 1.0 - bay.fraction.value
    if thickness <= 0.0 or share <= 0.0:
        return
    if "vermiculite" in bay.fill.lower():
        words = _("Take out and dispose of {material}, tested for asbestos first")
        words = words.format(material=bay.fill)
        step = Step.TAKE_OUT_VERMICULITE
        yield _area_item(component, step, bay.fill, thickness, words, share)
        return
    words = _("Take out the old fill: {material}").format(material=bay.fill)
    yield _area_item(component, Step.TAKE_OUT_FILL, bay.fill, thickness, words, share)
    yield _disposal(component, bay.fill, thickness, share)


# Filling


def _filled(work: LayerWork, fill: BayFill) -> Iterator[WorkItem]:
    """New fill, net of the framing; more of the same fill only for what is added."""
    component, bay = work.component, fill.bay
    is_topped_up = bay.fill == fill.material
    if not is_topped_up:
        yield from _taken_out(component, bay)
    if fill.material == "air":
        return
    volume = _fill_volume(component, bay, fill.thickness)
    thickness = fill.thickness
    if is_topped_up:
        volume -= _fill_volume(component, bay, fill.old_thickness)
        thickness -= fill.old_thickness
    if volume <= 0.0:
        return
    yield from _drilled(work, fill)
    yield _fill_item(component, fill.material, volume, thickness)


def _fill_volume(component: hf.ComponentEntry, bay: hf.Framing, thickness: float) -> float:
    """Between the framing and, over open framing, above it; m3."""
    depth = bay.depth.value
    between = min(thickness, depth) * (1.0 - bay.fraction.value)
    return component.area.value * (between + max(thickness - depth, 0.0))


def _fill_item(
    component: hf.ComponentEntry, material: str, volume: float, thickness: float
) -> WorkItem:
    step = _ON_BY_GROUP.get(group_of(material) or "", Step.NEW_LAYER)
    inches = stock.inches(thickness / INCH)
    if step is Step.NEW_BATTS:
        words = _("{material} between the framing, {thickness}")
    else:
        words = _("{material} into the bays, {thickness}")
    words = words.format(material=_capital(material), thickness=inches)
    return WorkItem(component.name, step, material, volume, "board foot", thickness, words)


def _drilled(work: LayerWork, fill: BayFill) -> Iterator[WorkItem]:
    """Holes for what is blown into bays that are closed on both sides and stay so."""
    component = work.component
    is_open = fill.bay.open or component.access == "open"
    if is_open or work.removed_inside or work.removed_outside:
        return
    if group_of(fill.material) not in BLOWN:
        return
    material = fill.material
    if _is_reached_from_outside(work):
        words = _("Drill the bays from outside through the siding, and plug")
        yield _area_item(component, Step.DRILL_OUTSIDE, material, None, words)
    else:
        words = _("Drill the bays from inside, and patch")
        yield _area_item(component, Step.DRILL_INSIDE, material, None, words)


def _is_reached_from_outside(work: LayerWork) -> bool:
    """As surveyed; otherwise from outside through siding, and from inside where there is none."""
    if work.component.reached_from is not None:
        return work.component.reached_from == "outside"
    return work.component.kind == "wall" and layer_group(work.kept[-1]) == "cladding"


# Putting on


def _on(work: LayerWork, layer: hf.LayerEntry) -> Iterator[WorkItem]:
    component = work.component
    if isinstance(layer, hf.FramedEntry):
        yield from _framed(work, layer.framed)
    elif isinstance(layer, hf.AirLayerEntry):
        yield _strips(component, layer)
    elif isinstance(layer, hf.SolidEntry):
        yield _solid(component, layer)
    else:
        name = layer.name or str(layer.resistance.typed)
        step = _ON_BY_GROUP.get(layer_group(layer) or "", Step.NEW_LAYER)
        yield _area_item(component, step, name, None, _capital(name))


def _framed(work: LayerWork, framed: hf.Framing) -> Iterator[WorkItem]:
    component = work.component
    wood = component.area.value * framed.fraction.value * framed.depth.value
    if wood > 0.0 and not work.stands_on_framing:
        words = _("New framing of {material}, {depth} deep")
        words = words.format(material=framed.framing, depth=framed.depth.typed)
        depth = framed.depth.value
        step = Step.NEW_FRAMING
        yield WorkItem(component.name, step, framed.framing, wood, "board foot", depth, words)
    thickness = fill_thickness(framed)
    volume = _fill_volume(component, framed, thickness)
    if volume > 0.0:
        yield _fill_item(component, framed.fill, volume, thickness)


def _strips(component: hf.ComponentEntry, layer: hf.AirLayerEntry) -> WorkItem:
    """A gap is kept by strips as thick as it is deep."""
    words = _("Furring strips for a {thickness} gap, 16 in on centre")
    words = words.format(thickness=layer.thickness.typed)
    length = component.area.value / STRIP_SPACING
    thickness = layer.thickness.value
    return WorkItem(
        component.name, Step.FURRING, STRIP_MATERIAL, length, "linear ft", thickness, words
    )


def _solid(component: hf.ComponentEntry, layer: hf.SolidEntry) -> WorkItem:
    """Insulation goes by the board foot, all else by area."""
    group = group_of(layer.material) or ""
    step = _ON_BY_GROUP.get(group, Step.NEW_LAYER)
    thickness = layer.thickness.value
    words = _("{material}, {thickness}").format(
        material=_capital(layer.material), thickness=layer.thickness.typed
    )
    if group not in INSULATION:
        return _area_item(component, step, layer.material, thickness, words)
    volume = component.area.value * thickness
    return WorkItem(component.name, step, layer.material, volume, "board foot", thickness, words)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
