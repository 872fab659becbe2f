"""What layers are, by their figures and groups, and where an assembly's cavity is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from server.core.assembly import (
    AirLayer,
    Assembly,
    FramedLayer,
    Layer,
    ResistanceLayer,
    SolidLayer,
    Ventilation,
)
from server.core.house import Component
from server.core.materials import Material

FOAMS = frozenset({"rigid-foam", "sprayed-foam"})
BOARDS = frozenset({"rigid-foam", "rigid-mineral-wool", "rigid-natural", "rigid-mineral"})
FILLS = frozenset({"batt", "dense-pack", "loose-fill"})
INSULATION = FOAMS | BOARDS | FILLS
MASONRY = frozenset({"masonry-old", "masonry-new", "concrete"})
INSULATES_BELOW = 0.07  # W/(m K): a material of no known group counts as insulation (our judgement)
LEAST_GAP = 0.0095  # m: 3/8 in behind cladding, as thick as a drainage mat (common practice)
THIN_SHEET, TIGHT_SHEET = 0.004, 10_000.0  # m, mu: siding of vinyl or metal, hung loosely
AIR_LAYER_DIFFUSION = 0.01  # m: s_d of an air layer, ISO 10456:2007 (memory)
ONE_PERM = 2e-10 / 57.2135e-12  # m: s_d at which still air passes one perm, kg/(s m2 Pa)
# m: what passes no more than one perm is called closed to vapour; figures hold to two digits
CLOSED = 0.98 * ONE_PERM


def is_insulation(material: Material) -> bool:
    """Whether a material insulates: by its group, or by its conductivity where it has none.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: our judgement.
    """
    if material.group is not None:
        return material.group in INSULATION
    return float(material.conductivity) <= INSULATES_BELOW


def is_foam(material: Material) -> bool:
    """Whether a material is a foam plastic, which lets no air through.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    return material.group in FOAMS


def materials_of(layers: Iterable[Layer]) -> Iterator[Material]:
    """Every material of some layers, framing and fill among them.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    for layer in layers:
        if isinstance(layer, SolidLayer):
            yield layer.material
        elif isinstance(layer, FramedLayer):
            yield layer.framing
            if layer.fill is not None:
                yield layer.fill


def fill_thickness(layer: FramedLayer) -> float:
    """Of the fill of a framed layer, m; 0 where it is empty.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    if layer.fill is None:
        return 0.0
    return float(layer.depth if layer.fill_thickness is None else layer.fill_thickness)


def diffusion_thickness(layer: Layer) -> float | None:
    """The still air as resistant to vapour as a layer is, along its fill, m; None where unknown.

    s_d = mu d. Shapes: one layer. Range: a layer whose vapour figure is known. Raises: nothing.
    Source: ISO 13788:2012 (memory); air layers 0.01 m, ISO 10456:2007 (memory).
    """
    if isinstance(layer, AirLayer):
        return AIR_LAYER_DIFFUSION
    if isinstance(layer, ResistanceLayer):
        return None
    if isinstance(layer, SolidLayer):
        factor = layer.material.vapour_resistance_factor
        return None if factor is None else float(factor) * float(layer.thickness)
    if layer.fill is None:
        return AIR_LAYER_DIFFUSION
    if layer.fill.vapour_resistance_factor is None:
        return None
    filled = fill_thickness(layer)
    rest = AIR_LAYER_DIFFUSION if filled < float(layer.depth) - 1e-6 else 0.0
    return float(layer.fill.vapour_resistance_factor) * filled + rest


def diffusion_through(layers: Iterable[Layer]) -> float | None:
    """s_d of some layers together, m; None where one of them is unknown.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    total = 0.0
    for layer in layers:
        each = diffusion_thickness(layer)
        if each is None:
            return None
        total += each
    return total


def deck_of(layers: Sequence[Layer]) -> int:
    """The place of the first deck outside of the rafters, a ceiling of boards being none.

    Shapes: layers from inside to outside. Range: past the last layer where there is no deck.
    Raises: nothing.
    Source: definition.
    """
    framed = [index for index, layer in enumerate(layers) if isinstance(layer, FramedLayer)]
    first = framed[-1] + 1 if framed else 0
    decks = (index for index in range(first, len(layers)) if _is_deck(layers[index]))
    return next(decks, len(layers))


def _is_deck(layer: Layer) -> bool:
    return isinstance(layer, SolidLayer) and layer.material.group == "sheathing"


def up_to_ventilation(layers: Sequence[Layer]) -> Sequence[Layer]:
    """The layers that water vapour has to pass: up to a gap that outdoor air dries.

    Shapes: any layers. Range: a slightly ventilated gap drains and dries too, as behind brick.
    Raises: nothing. Source: ISO 13788:2012 6.2 for well-ventilated gaps (memory); our judgement.
    """
    for index, layer in enumerate(layers):
        if is_open_gap(layer) or is_loose_sheet(layer):
            return layers[:index]
    return layers


def is_loose_sheet(layer: Layer) -> bool:
    """Whether a layer is siding of thin sheets, such as vinyl, whose joints and back air passes.

    Shapes: one layer. Range: any. Raises: nothing.
    Source: IRC R702.7.3 counts it as vented cladding (2018).
    """
    return (
        isinstance(layer, SolidLayer)
        and layer.material.group == "cladding"
        and float(layer.thickness) <= THIN_SHEET
        and float(layer.material.vapour_resistance_factor or 0.0) >= TIGHT_SHEET
    )


def is_open_gap(layer: Layer) -> bool:
    """Whether a layer is air that outdoors gets into.

    Shapes: one layer. Range: any. Raises: nothing. Source: definition.
    """
    return isinstance(layer, AirLayer) and layer.ventilation is not Ventilation.UNVENTILATED


def is_vented(layers: Sequence[Layer]) -> bool:
    """Whether the outermost layers are vented from behind, or by themselves as vinyl siding is.

    Shapes: any layers. Range: a gap of 3/8 in at least. Raises: nothing.
    Source: IRC R702.7.3 counts vinyl siding and brick over a clear airspace (2018).
    """
    gaps = [layer for layer in layers if isinstance(layer, AirLayer) and is_open_gap(layer)]
    if any(float(gap.thickness) >= LEAST_GAP for gap in gaps):
        return True
    return bool(layers) and is_loose_sheet(layers[-1])


def insulates(layer: Layer) -> bool:
    """Whether a layer is insulation, or framing with insulation between.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    if isinstance(layer, FramedLayer):
        return layer.fill is not None and is_insulation(layer.fill)
    return isinstance(layer, SolidLayer) and is_insulation(layer.material)


# s_d of paint on a lining, m: the loosest that counts as class III (10 perm), two perm of old oil
# paint, and a class II retarder paint; ASHRAE Handbook: Fundamentals, permeances (memory).
PAINT = {"none": 0.0, "latex": 0.1 * ONE_PERM, "oil": 0.5 * ONE_PERM, "vapour retarder": ONE_PERM}
USUAL_PAINT = "latex"
LININGS = frozenset({"board", "plaster"})


def is_lined(layers: Sequence[Layer]) -> bool:
    """Whether the innermost layer is one that people paint.

    Shapes: any layers. Range: any. Raises: nothing. Source: common practice.
    """
    first = layers[0] if layers else None
    return isinstance(first, SolidLayer) and first.material.group in LININGS


@dataclass(frozen=True, slots=True)
class Cavity:
    """An assembly at its framed layer: what lies inside of it, itself, what lies outside of it."""

    inside: Sequence[Layer]
    bay: FramedLayer
    outside: Sequence[Layer]

    @property
    def is_filled(self) -> bool:
        """Whether insulation lies between the framing."""
        return insulates(self.bay)

    @property
    def boards_outside(self) -> tuple[SolidLayer, ...]:
        """The continuous insulation outside of it, inside of any ventilated gap."""
        return tuple(
            layer
            for layer in up_to_ventilation(self.outside)
            if isinstance(layer, SolidLayer) and _is_board(layer.material)
        )

    @property
    def filled_depth(self) -> float:
        """Depth of all framing that is filled, m."""
        framed = (*self.inside, self.bay)
        return sum(
            fill_thickness(layer)
            for layer in framed
            if isinstance(layer, FramedLayer) and insulates(layer)
        )

    @property
    def continuous_resistance(self) -> float:
        """R of that continuous insulation, m2 K/W."""
        return sum(resistance_of(layer) for layer in self.boards_outside)


def _is_board(material: Material) -> bool:
    """Insulation, or sheathing that insulates."""
    sheathing = material.group == "sheathing" and float(material.conductivity) <= INSULATES_BELOW
    return sheathing or is_insulation(material)


def resistance_of(layer: SolidLayer) -> float:
    """Of a layer by itself, m2 K/W.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    return float(layer.thickness) / float(layer.material.conductivity)


def cavity_of(layers: Sequence[Layer]) -> Cavity | None:
    """Where the framing is: the outermost framed layer that is filled, else the outermost.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    framed = [index for index, layer in enumerate(layers) if isinstance(layer, FramedLayer)]
    if not framed:
        return None
    filled = [index for index in framed if insulates(layers[index])]
    index = (filled or framed)[-1]
    bay = layers[index]
    assert isinstance(bay, FramedLayer)
    return Cavity(layers[:index], bay, layers[index + 1 :])


def is_solid_masonry(layers: Sequence[Layer]) -> bool:
    """Whether brick, stone, block or concrete carries the wall: no framing stands within.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    if any(isinstance(layer, FramedLayer) for layer in layers):
        return False
    return any(material.group in MASONRY for material in materials_of(layers))


def layers_of(component: Component) -> tuple[Layer, ...]:
    """The layers of a component; none where only its U is known.

    Shapes: one at a time. Range: any. Raises: nothing.
    Source: definition.
    """
    built = component.construction
    return built.layers if isinstance(built, Assembly) else ()
