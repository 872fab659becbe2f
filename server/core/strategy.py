"""A strategy: what is done to a house. Applying one makes a new house; the old one stays."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from server.core.air import (
    MOST_FLOW,
    BlowerDoor,
    ConstantInfiltration,
    Leakage,
    Ventilation,
    flow_from_air_changes,
)
from server.core.arrays import Real
from server.core.assembly import MOST_RESISTANCE, Assembly, FramedLayer, Layer, SolidLayer
from server.core.errors import CoreError, NothingToChange, SeveralFramedLayers, require_within
from server.core.ground import EdgeInsulation
from server.core.house import (
    OPENINGS,
    Component,
    FixedTransmittance,
    House,
    Junction,
    Kind,
    Plant,
    Space,
)
from server.core.materials import Material
from server.core.transmittance import storm_window_transmittance


@dataclass(frozen=True, slots=True, eq=False)
class LayerChange:
    """What is done to the layers found: some removed, the bays filled, layers added.

    remove: names of layers or of materials. fill into the framed layer, to fill_thickness m (the
    full depth where None). inside and outside: layers added there, inside to outside.
    Raises: ImpossibleValue.
    """

    remove: tuple[str, ...] = ()
    fill: Material | None = None
    fill_thickness: Real | None = None
    fill_label: Real | None = None
    inside: tuple[Layer, ...] = ()
    outside: tuple[Layer, ...] = ()

    def __post_init__(self) -> None:
        if self.fill_label is not None:
            require_within("fill_label_resistance", self.fill_label, 0.0, MOST_RESISTANCE)


Change = Assembly | FixedTransmittance | LayerChange


@dataclass(frozen=True, slots=True, eq=False)
class OpeningChange:
    """New figures of a window, skylight or door; None keeps what was found.

    storm: U of a storm that goes over it, W/(m2 K), over the new one where there is one.
    """

    u_value: Real | None = None
    shgc: Real | None = None
    storm: Real | None = None


MOST_AIR_CHANGES = 100.0  # 1/h, above any dwelling even at 50 Pa


@dataclass(frozen=True, slots=True, eq=False)
class NewLeakage:
    """Airtightness after the work: exactly one of the three.

    air_changes_at_50_pa and air_changes 1/h refer to the volume inside after the work;
    flow_at_50_pa m3/s. Raises: ImpossibleValue.
    """

    air_changes_at_50_pa: Real | None = None
    flow_at_50_pa: Real | None = None
    air_changes: Real | None = None

    def __post_init__(self) -> None:
        for field, value, most in (
            ("ach50", self.air_changes_at_50_pa, MOST_AIR_CHANGES),
            ("cfm50", self.flow_at_50_pa, MOST_FLOW),
            ("air_changes", self.air_changes, MOST_AIR_CHANGES),
        ):
            if value is not None:
                require_within(field, value, 0.0, most)

    def leakage(self, volume_inside: Real, shelter_class: int) -> Leakage:
        """The leakage of a house with a volume inside, m3, in a shelter class.

        Shapes: any that broadcast.
        Range: shelter classes 1 to 5.
        Raises: nothing.
        Source: definition of air changes.
        """
        if self.air_changes is not None:
            return ConstantInfiltration(flow_from_air_changes(self.air_changes, volume_inside))
        if self.flow_at_50_pa is not None:
            return BlowerDoor(self.flow_at_50_pa, shelter_class)
        assert self.air_changes_at_50_pa is not None
        flow = flow_from_air_changes(self.air_changes_at_50_pa, volume_inside)
        return BlowerDoor(flow, shelter_class)


@dataclass(frozen=True, slots=True, eq=False)
class Strategy:
    """Everything done to a house. What it does not name stays as found.

    changes: a component's name, or else a kind, to what is done; the name goes before the kind.
    inside: buffers that come inside the thermal boundary. spaces: buffer to air changes 1/h.
    psi: junction to W/(m K).
    """

    name: str
    recipe: str
    changes: Mapping[str, Change]
    inside: tuple[str, ...] = ()
    leakage: NewLeakage | None = None
    ventilation: Ventilation | None = None
    heating: Plant | None = None
    cooling: Plant | None = None
    air_changes: Mapping[str, Real] | None = None
    psi: Mapping[str, Real] | None = None
    openings: Mapping[str, OpeningChange] | None = None
    edge_insulation: Mapping[str, EdgeInsulation] | None = None


def apply(strategy: Strategy, house: House) -> House:
    """The house after a strategy.

    A buffer that comes inside brings its volume and loses its vents; leakage given as air changes
    refers to the volume after; with none given the leakage area stays as it was. Storeys stay.
    Shapes: the house's and the strategy's, broadcast.
    Range: changes that find something to act on.
    Raises: NothingToChange, SeveralFramedLayers, and what the parts refuse.
    Source: definition.
    """
    spaces = _spaces(strategy, house)
    volumes = [space.volume for space in spaces if space.inside]
    volume_inside = sum(volumes[1:], start=volumes[0])
    leakage = house.leakage
    if strategy.leakage is not None:
        shelter = leakage.shelter_class if isinstance(leakage, BlowerDoor) else 3
        leakage = strategy.leakage.leakage(volume_inside, shelter)
    return replace(
        house,
        spaces=spaces,
        components=_components(strategy, house),
        junctions=_junctions(strategy, house),
        leakage=leakage,
        ventilation=strategy.ventilation or house.ventilation,
        heating=strategy.heating or house.heating,
        cooling=strategy.cooling or house.cooling,
    )


def _spaces(strategy: Strategy, house: House) -> tuple[Space, ...]:
    buffers = {space.name for space in house.buffers}
    for index, name in enumerate(strategy.inside):
        if name not in buffers:
            raise NothingToChange(f"inside[{index}]", what="buffer space", name=name)
    vents = strategy.air_changes or {}
    for name in vents:
        if name not in buffers or name in strategy.inside:
            raise NothingToChange(f"spaces[{name!r}]", what="buffer space", name=name)
    spaces = []
    for space in house.spaces:
        if space.name in strategy.inside:
            space = replace(space, inside=True, air_changes=0.0)
        elif space.name in vents:
            space = replace(space, air_changes=vents[space.name])
        spaces.append(space)
    return tuple(spaces)


def _junctions(strategy: Strategy, house: House) -> tuple[Junction, ...]:
    psi = strategy.psi or {}
    known = {junction.name for junction in house.junctions}
    for name in psi:
        if name not in known:
            raise NothingToChange(f"psi[{name!r}]", what="junction", name=name)
    return tuple(
        replace(junction, psi=psi.get(junction.name, junction.psi)) for junction in house.junctions
    )


def _components(strategy: Strategy, house: House) -> tuple[Component, ...]:
    _find_all(strategy, house)
    changed: dict[tuple[int, int], Assembly | FixedTransmittance] = {}
    parts = []
    for part in house.components:
        key = part.name if part.name in strategy.changes else part.kind.value
        change = strategy.changes.get(key)
        if change is not None:
            # walls that share an assembly and a change share the assembly after it
            same = (id(part.construction), id(change))
            if same not in changed:
                changed[same] = _changed(part, change, f"changes[{key!r}]")
            part = replace(part, construction=changed[same])
        if strategy.openings and part.name in strategy.openings:
            part = _opened(part, strategy.openings[part.name])
        if strategy.edge_insulation and part.name in strategy.edge_insulation:
            part = _edged(part, strategy.edge_insulation[part.name])
        parts.append(part)
    return tuple(parts)


def _find_all(strategy: Strategy, house: House) -> None:
    """Refuse a change that names no part of the house, or not one of the sort it acts on."""
    parts = {part.name: part for part in house.components}
    kinds = {part.kind.value for part in house.components if part.name not in strategy.changes}
    for name in strategy.changes:
        if name not in parts and name not in kinds:
            raise NothingToChange(f"changes[{name!r}]", what="component or kind", name=name)
    for name in strategy.openings or {}:
        if name not in parts or parts[name].kind not in OPENINGS:
            raise NothingToChange(f"openings[{name!r}]", what="opening", name=name)
    for name in strategy.edge_insulation or {}:
        if name not in parts or parts[name].kind is not Kind.SLAB or parts[name].ground is None:
            raise NothingToChange(f"edge_insulation[{name!r}]", what="slab", name=name)


def _opened(part: Component, change: OpeningChange) -> Component:
    construction = part.construction
    if change.u_value is not None:
        construction = FixedTransmittance(change.u_value)
    if change.storm is not None:
        if not isinstance(construction, FixedTransmittance):
            raise NothingToChange(
                f"openings[{part.name!r}].storm_u_value", what="U", name=part.name
            )
        whole = storm_window_transmittance(construction.u_value, change.storm)
        construction = FixedTransmittance(whole)
    return replace(
        part, construction=construction, shgc=part.shgc if change.shgc is None else change.shgc
    )


def _edged(part: Component, insulation: EdgeInsulation) -> Component:
    assert part.ground is not None  # _find_all has seen to it
    return replace(part, ground=replace(part.ground, edge_insulation=insulation))


def _changed(part: Component, change: Change, place: str) -> Assembly | FixedTransmittance:
    if not isinstance(change, LayerChange):
        return change
    if isinstance(part.construction, FixedTransmittance):
        raise NothingToChange(place, what="layer", name=part.name, component=part.name)
    layers = list(part.construction.layers)
    for index, name in enumerate(change.remove):
        kept = [layer for layer in layers if not _is_called(layer, name)]
        if len(kept) == len(layers):
            raise NothingToChange(
                f"{place}.remove[{index}]", what="layer", name=name, component=part.name
            )
        layers = kept
    if change.fill is not None or change.fill_thickness is not None:
        layers = _filled(layers, change, part.name, place)
    layers = [*change.inside, *layers, *change.outside]
    return Assembly(part.construction.name, tuple(layers))


def _is_called(layer: Layer, name: str) -> bool:
    return layer.name == name or (isinstance(layer, SolidLayer) and layer.material.name == name)


def _filled(layers: list[Layer], change: LayerChange, component: str, place: str) -> list[Layer]:
    """Put the fill into the one framed layer, or among several into the one that is empty."""
    framed = [layer for layer in layers if isinstance(layer, FramedLayer)]
    if not framed:
        raise NothingToChange(
            f"{place}.fill", what="framed layer", name="fill", component=component
        )
    if len(framed) > 1:
        framed = [layer for layer in framed if layer.fill is None]
        if len(framed) != 1:
            raise SeveralFramedLayers(f"{place}.fill", component=component)
    bay = framed[0]
    fill = change.fill or bay.fill
    if fill is None:
        raise NothingToChange(
            f"{place}.fill_thickness", what="fill", name="fill_thickness", component=component
        )
    try:
        full = replace(
            bay, fill=fill, fill_thickness=change.fill_thickness, label_resistance=change.fill_label
        )
    except CoreError as error:
        raise error.within(place) from None
    return [full if layer is bay else layer for layer in layers]
