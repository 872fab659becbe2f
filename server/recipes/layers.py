"""What a layer of the file is, and which names take it off."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from server.files import house_file as hf
from server.files.material_groups import INSULATION, MASONRY, group_of

# Claddings that carry themselves or cannot be taken off and put back over board.
FIXED_CLADDINGS = ("stucco", "brick", "stone", "render")


def layer_group(layer: hf.LayerEntry) -> str | None:
    """The group of a layer's material; one of which only R is known goes by its name."""
    if isinstance(layer, hf.SolidEntry):
        return group_of(layer.material)
    if isinstance(layer, hf.ResistanceEntry) and layer.name:
        return group_of(layer.name)
    return None


def is_masonry(layer: hf.LayerEntry) -> bool:
    """Whether a layer is brick, stone, block or concrete, a veneer or stucco among them."""
    group = layer_group(layer)
    if group in MASONRY:
        return True
    words = layer.material.lower() if isinstance(layer, hf.SolidEntry) else ""
    return group == "cladding" and any(word in words for word in FIXED_CLADDINGS)


def is_ventilated(layer: hf.LayerEntry) -> bool:
    """Whether a layer is an air layer open to outdoors: board outside it would do nothing."""
    return isinstance(layer, hf.AirLayerEntry) and layer.air_layer != "unventilated"


def is_insulated(layers: Iterable[hf.LayerEntry]) -> bool:
    """Whether a layer, or the fill of a framed one, is insulation."""
    for layer in layers:
        if isinstance(layer, hf.FramedEntry):
            if layer.framed.fill != "air":
                return True
        elif layer_group(layer) in INSULATION:
            return True
    return False


def is_framed(layers: Iterable[hf.LayerEntry]) -> bool:
    """Whether there is a framed layer."""
    return any(isinstance(layer, hf.FramedEntry) for layer in layers)


def bay_for_fill(layers: Sequence[hf.LayerEntry]) -> hf.FramedEntry | None:
    """The framed layer that a fill would go into; None where the core would refuse it.

    The one framed layer, or among several the one that is empty.
    """
    framed = [layer for layer in layers if isinstance(layer, hf.FramedEntry)]
    if len(framed) > 1:
        framed = [layer for layer in framed if layer.framed.fill == "air"]
    return framed[0] if len(framed) == 1 else None


def is_called(layer: hf.LayerEntry, name: str) -> bool:
    """Whether a removal of this name takes the layer off, as the core reads it."""
    return layer.name == name or (isinstance(layer, hf.SolidEntry) and layer.material == name)


def removal(
    layers: Sequence[hf.LayerEntry], needed: Sequence[int], welcome: Sequence[int] = ()
) -> list[str] | None:
    """Names that take off the needed layers and, where a name allows it, the welcome ones.

    No name takes off any other layer. None where a needed layer has no such name.
    """
    allowed = {*needed, *welcome}
    names: list[str] = []
    gone: set[int] = set()
    for index in sorted(allowed):
        if index in gone:
            continue
        name = _only_name(layers, index, allowed)
        if name is not None:
            names.append(name)
            gone |= {i for i, layer in enumerate(layers) if is_called(layer, name)}
        elif index in needed:
            return None
    return names


def _only_name(layers: Sequence[hf.LayerEntry], index: int, allowed: set[int]) -> str | None:
    layer = layers[index]
    material = layer.material if isinstance(layer, hf.SolidEntry) else None
    for name in (layer.name, material):
        if name is None:
            continue
        if {i for i, each in enumerate(layers) if is_called(each, name)} <= allowed:
            return name
    return None


def left_after(layers: Sequence[hf.LayerEntry], names: Iterable[str]) -> list[hf.LayerEntry]:
    """The layers that stay when those of these names are taken off."""
    names = tuple(names)
    return [layer for layer in layers if not any(is_called(layer, name) for name in names)]
