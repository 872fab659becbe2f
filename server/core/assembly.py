"""Layers, and the thermal resistance of an assembly of them by the combined method."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from typing import TypeAlias

import numpy as np

from server.core.arrays import Real, larger, smaller
from server.core.errors import (
    FillDeeperThanBay,
    FirstFramingAligned,
    MetalFraming,
    NoLayers,
    TwoTapers,
    require_within,
)
from server.core.fasteners import Fasteners, fastener_transmittance
from server.core.films import HeatFlow, unventilated_air_layer
from server.core.materials import METAL_CONDUCTIVITY, Material

THICKEST = 2.0  # m, of any layer
MOST_RESISTANCE = 50.0  # m2 K/W, of any layer; beyond it a figure was mistyped
UNVENTILATED_OPENING = 500e-6  # m2 of opening per m: at or below, the air stands still
OPEN_ENDS_FACTOR = 0.5  # of still air, in a bay open at top and bottom (common practice)
WELL_VENTILATED_OPENING = 1500e-6  # m2 of opening per m: at or above, the layer is outdoors


class Ventilation(Enum):
    """How far an air layer is open to outdoors."""

    UNVENTILATED = "unventilated"
    SLIGHTLY = "slightly ventilated"
    WELL = "well ventilated"


def _require_label(label: Real | None) -> None:
    if label is not None:
        require_within("label_resistance", label, 0.0, MOST_RESISTANCE)


@dataclass(frozen=True, slots=True, eq=False)
class SolidLayer:
    """One material through the whole area. Thickness m, above zero; label m2 K/W.

    thinnest: of a board that tapers evenly from one edge to the other, whose mean `thickness` is.
    """

    material: Material
    thickness: Real
    name: str | None = None
    label_resistance: Real | None = None
    fasteners: Fasteners | None = None
    thinnest: Real | None = None

    def __post_init__(self) -> None:
        require_within("thickness", self.thickness, 0.0, THICKEST, above=True)
        if self.thinnest is not None:
            thin = float(np.min(self.thickness))
            require_within("thinnest", self.thinnest, 0.0, thin, above=True)
        if self.fasteners is not None:
            thinnest = float(np.min(self.thickness))
            require_within("fasteners.recess", self.fasteners.recess, 0.0, thinnest)
        _require_label(self.label_resistance)


@dataclass(frozen=True, slots=True, eq=False)
class AirLayer:
    """An air layer between two surfaces. Thickness m; opening area m2 per m of length."""

    ventilation: Ventilation
    thickness: Real
    opening_area: Real = 1000e-6
    name: str | None = None
    label_resistance: Real | None = None

    def __post_init__(self) -> None:
        require_within("thickness", self.thickness, 0.0, THICKEST, above=True)
        require_within("opening_area", self.opening_area, 0.0, 10.0)
        _require_label(self.label_resistance)


@dataclass(frozen=True, slots=True, eq=False)
class ResistanceLayer:
    """A layer of which only the resistance is known, m2 K/W."""

    resistance: Real
    name: str | None = None
    label_resistance: Real | None = None

    def __post_init__(self) -> None:
        require_within("resistance", self.resistance, 0.0, MOST_RESISTANCE)
        _require_label(self.label_resistance)


@dataclass(frozen=True, slots=True, eq=False)
class FramedLayer:
    """Framing members with fill, or air, between them.

    fraction: share of the area that is framing, 0 to 1. depth m: of the framing. fill: None is
    air. fill_thickness m, above zero: None is the full depth. open: nothing stands above the
    framing (an attic floor). aligned: in line with the framed layer next inside, not crossing it.
    empty_share: share of the cavity that the installer missed, 0 to 1, as an empty path.
    open_ends: a bay open at top and bottom, whose air layer counts half.
    Raises: ImpossibleValue, MetalFraming, FillDeeperThanBay.
    """

    framing: Material
    fraction: Real
    depth: Real
    fill: Material | None = None
    fill_thickness: Real | None = None
    open: bool = False
    aligned: bool = False
    empty_share: Real = 0.0
    open_ends: bool = False
    name: str | None = None
    label_resistance: Real | None = None

    def __post_init__(self) -> None:
        require_within("fraction", self.fraction, 0.0, 1.0)
        require_within("depth", self.depth, 0.0, THICKEST, above=True)
        require_within("empty_share", self.empty_share, 0.0, 1.0)
        _require_label(self.label_resistance)
        if bool(np.any(np.asarray(self.framing.conductivity) > METAL_CONDUCTIVITY)):
            raise MetalFraming("framing", material=self.framing.name)
        if self.fill_thickness is not None:
            require_within("fill_thickness", self.fill_thickness, 0.0, THICKEST, above=True)
            too_deep = np.asarray(self.fill_thickness) > np.asarray(self.depth) * (1.0 + 1e-9)
            if not self.open and bool(np.any(too_deep)):
                raise FillDeeperThanBay(
                    "fill_thickness",
                    fill_thickness=float(np.max(self.fill_thickness)),
                    depth=float(np.max(self.depth)),
                )


Layer: TypeAlias = SolidLayer | AirLayer | ResistanceLayer | FramedLayer


@dataclass(frozen=True, slots=True, eq=False)
class Assembly:
    """Ordered layers, inside to outside. Raises: NoLayers, FirstFramingAligned, TwoTapers."""

    name: str
    layers: tuple[Layer, ...]

    def __post_init__(self) -> None:
        if not self.layers:
            raise NoLayers("layers")
        tapers = [n for n, layer in enumerate(self.layers) if not _is_zero(tapering(layer))]
        if len(tapers) > 1:
            raise TwoTapers(f"layers[{tapers[1]}].thinnest")
        for index, layer in enumerate(self.layers):
            if isinstance(layer, FramedLayer):
                if layer.aligned:
                    raise FirstFramingAligned(f"layers[{index}].framed.aligned")
                break

    @property
    def label_resistance(self) -> Real | None:
        """The sum of the labels on the packages, m2 K/W; None where no layer carries one."""
        labels = [layer.label_resistance for layer in self.layers]
        known = [label for label in labels if label is not None]
        return sum(known[1:], start=known[0]) if known else None

    @property
    def stands_off(self) -> bool:
        """Whether the cladding stands off a well-ventilated gap, so that sun misses the wall."""
        return any(_is_well_ventilated(layer) for layer in self.layers)


@dataclass(frozen=True, slots=True, eq=False)
class ResistanceLimits:
    """Total resistance, films included, m2 K/W, by both bounds of the combined method.

    fasteners: what they add to U, W/(m2 K); neither bound knows of them.
    """

    upper: Real
    lower: Real
    fasteners: Real = 0.0

    @property
    def mean(self) -> Real:
        """The combined method's value, m2 K/W (ISO 6946 6.7.2)."""
        return (self.upper + self.lower) / 2.0

    @property
    def resistance(self) -> Real:
        """What counts, m2 K/W: the combined method's value with the fasteners."""
        if _is_zero(self.fasteners):
            return self.mean
        return 1.0 / (1.0 / self.mean + self.fasteners)


_NOTHING = 1e-9  # m2 K/W: a missed spot with nothing above it, kept off zero for the division

# One way through a framed layer: the share of the area that takes it, and its resistance.
_Path: TypeAlias = tuple[Real, Real]


@dataclass(frozen=True, slots=True, eq=False)
class FramedSection:
    """A framed layer as resistances side by side, m2 K/W; shares of the area, 0 to 1."""

    fraction: Real
    empty_share: Real
    framing: Real
    fill: Real
    empty: Real

    def paths(self) -> list[_Path]:
        """The ways through it: share of the area and resistance.

        Shapes: the layer's. Range: any. Raises: nothing.
        Source: definition.
        """
        cavity = 1.0 - self.fraction
        paths = [(self.fraction, self.framing), (cavity * (1.0 - self.empty_share), self.fill)]
        if not _is_zero(self.empty_share):
            paths.append((cavity * self.empty_share, self.empty))
        return paths


def total_resistance(
    layers: Sequence[Layer], flow: HeatFlow, inside_film: float, outside_film: float
) -> ResistanceLimits:
    """Both limits of the total resistance of an assembly, films included.

    A well-ventilated layer and everything outside it are dropped, and the surface behind it takes
    the inside film. A slightly ventilated layer lies between the still and the ventilated case by
    its opening area.
    Shapes: layer quantities any that broadcast; result the broadcast shape, m2 K/W.
    Range: framing that conducts less than 10 W/(m K).
    Raises: nothing beyond what the layers refuse at construction.
    Source: ISO 6946:2017 6.7 (combined method), 6.9 (air layers) and Annex F.3 (fasteners).
    """
    for index, layer in enumerate(layers):
        if not isinstance(layer, AirLayer) or layer.ventilation is Ventilation.UNVENTILATED:
            continue
        if _is_well_ventilated(layer):
            return _plain_limits(layers[:index], flow, inside_film + inside_film)
        still = [*layers]
        still[index] = replace(layer, ventilation=Ventilation.UNVENTILATED)
        unventilated = total_resistance(still, flow, inside_film, outside_film)
        ventilated = _plain_limits(layers[:index], flow, inside_film + inside_film)
        return _between(unventilated, ventilated, layer.opening_area)
    return _plain_limits(layers, flow, inside_film + outside_film)


def ventilated_share(opening_area: Real) -> Real:
    """How far an air layer stands between still and well ventilated, 0 to 1.

    Shapes: any; m2 of opening per m of length.
    Range: held between 500 and 1500 mm2 per m.
    Raises: nothing.
    Source: ISO 6946:2017 6.9.3.
    """
    held = smaller(larger(opening_area, UNVENTILATED_OPENING), WELL_VENTILATED_OPENING)
    return (held - UNVENTILATED_OPENING) / (WELL_VENTILATED_OPENING - UNVENTILATED_OPENING)


def _is_well_ventilated(layer: Layer) -> bool:
    return isinstance(layer, AirLayer) and layer.ventilation is Ventilation.WELL


def _between(
    unventilated: ResistanceLimits, ventilated: ResistanceLimits, opening_area: Real
) -> ResistanceLimits:
    share = ventilated_share(opening_area)
    return ResistanceLimits(
        upper=(1.0 - share) * unventilated.upper + share * ventilated.upper,
        lower=(1.0 - share) * unventilated.lower + share * ventilated.lower,
        fasteners=(1.0 - share) * unventilated.fasteners + share * ventilated.fasteners,
    )


@dataclass(frozen=True, slots=True, eq=False)
class Split:
    """Layers as resistances, m2 K/W, each with its index.

    plain: what is the same over the whole area. groups: framed layers, those in line together.
    """

    plain: tuple[tuple[int, Real], ...]
    groups: tuple[tuple[tuple[int, FramedSection], ...], ...]


def split(layers: Sequence[Layer], flow: HeatFlow) -> Split:
    """Take layers apart into what is the same everywhere and what lies side by side.

    Shapes: the layers'.
    Range: layers without a ventilated one.
    Raises: nothing.
    Source: ISO 6946:2017 6.7.2.2.
    """
    plain: list[tuple[int, Real]] = []
    groups: list[list[tuple[int, FramedSection]]] = []
    for index, layer in enumerate(layers):
        if not isinstance(layer, FramedLayer):
            plain.append((index, _plain_resistance(layer, flow)))
            continue
        above = _resistance_above(layer)
        if not _is_zero(above):
            plain.append((index, above))
        section = _section(layer, flow)
        if section is None:
            continue
        if layer.aligned and groups:
            groups[-1].append((index, section))
        else:
            groups.append([(index, section)])
    return Split(tuple(plain), tuple(tuple(group) for group in groups))


def _plain_limits(layers: Sequence[Layer], flow: HeatFlow, films: float) -> ResistanceLimits:
    """Both limits of layers without a ventilated one; `films` is the sum of both films."""
    parts = split(layers, flow)
    plain: Real = films
    for _index, resistance in parts.plain:
        plain = plain + resistance
    groups = [[section for _index, section in group] for group in parts.groups]
    more: Real = 0.0
    for layer in layers:
        more = more + tapering(layer)
    limits = ResistanceLimits(
        tapered_resistance(_upper_limit(plain, groups), more),
        tapered_resistance(_lower_limit(plain, groups), more),
    )
    added = _fasteners(layers, limits.mean)
    return limits if _is_zero(added) else replace(limits, fasteners=added)


def _fasteners(layers: Sequence[Layer], total: Real) -> Real:
    """What the fasteners of all layers add to U, W/(m2 K)."""
    added: Real = 0.0
    for layer in layers:
        if isinstance(layer, SolidLayer) and layer.fasteners is not None:
            own = layer.thickness / layer.material.conductivity
            added = added + fastener_transmittance(layer.fasteners, layer.thickness, own, total)
    return added


def tapering(layer: Layer) -> Real:
    """What a layer resists more at its thick edge than at its thin one, m2 K/W; else nothing.

    Shapes: the layer's. Range: any layer. Raises: nothing.
    Source: definition; the mean thickness lies midway.
    """
    if not isinstance(layer, SolidLayer) or layer.thinnest is None:
        return 0.0
    return 2.0 * (layer.thickness - layer.thinnest) / layer.material.conductivity


def tapered_resistance(thin: Real, more: Real) -> Real:
    """R of a rectangle that resists `thin` in all at one edge and `more` beyond it at the other.

    R = R_1/ln(1 + R_1/R_0).
    Shapes: any that broadcast; m2 K/W. Range: thin above zero; without taper it is thin itself.
    Raises: nothing.
    Source: ISO 6946:2017 Annex E.2 (2007 Annex C.2), memory.
    """
    if _is_zero(more):
        return thin
    steep = np.where(np.asarray(more) > 0.0, more, 1.0)
    result = np.where(np.asarray(more) > 0.0, steep / np.log1p(steep / thin), thin)
    return float(result) if np.ndim(result) == 0 else result


def _plain_resistance(layer: SolidLayer | AirLayer | ResistanceLayer, flow: HeatFlow) -> Real:
    if isinstance(layer, SolidLayer):
        thickness = layer.thickness if layer.thinnest is None else layer.thinnest
        return thickness / layer.material.conductivity
    if isinstance(layer, AirLayer):
        return unventilated_air_layer(layer.thickness, flow)
    return layer.resistance


def _resistance_above(layer: FramedLayer) -> Real:
    """Fill of an open framed layer that rises above the framing: continuous over both."""
    if layer.fill is None or layer.fill_thickness is None or not layer.open:
        return 0.0
    return larger(layer.fill_thickness - layer.depth, 0.0) / layer.fill.conductivity


def _section(layer: FramedLayer, flow: HeatFlow) -> FramedSection | None:
    """The resistances side by side in a framed layer; None where nothing of it counts."""
    fill_thickness = layer.depth if layer.fill_thickness is None else layer.fill_thickness
    still_air = unventilated_air_layer(layer.depth, flow)
    if layer.open_ends:
        still_air = still_air * OPEN_ENDS_FACTOR
    if layer.open:
        # Framing that stands out of the fill into the attic air adds nothing.
        height = smaller(fill_thickness, layer.depth)
        if layer.fill is None:
            return None
        return FramedSection(
            layer.fraction,
            layer.empty_share,
            framing=height / layer.framing.conductivity,
            fill=height / layer.fill.conductivity,
            empty=_NOTHING,
        )
    framing = layer.depth / layer.framing.conductivity
    if layer.fill is None:
        return FramedSection(layer.fraction, 0.0, framing=framing, fill=still_air, empty=still_air)
    left = larger(layer.depth - fill_thickness, 0.0)
    fill = fill_thickness / layer.fill.conductivity + unventilated_air_layer(left, flow)
    return FramedSection(
        layer.fraction, layer.empty_share, framing=framing, fill=fill, empty=still_air
    )


def _upper_limit(plain: Real, groups: Sequence[Sequence[FramedSection]]) -> Real:
    """Parallel heat flow from air to air along every path (ISO 6946 6.7.2.3)."""
    conductance: Real = 0.0
    for route in itertools.product(*(paths_in_line(group) for group in groups)):
        share: Real = 1.0
        resistance = plain
        for path_share, path_resistance in route:
            share = share * path_share
            resistance = resistance + path_resistance
        conductance = conductance + share / resistance
    return 1.0 / conductance


def _lower_limit(plain: Real, groups: Sequence[Sequence[FramedSection]]) -> Real:
    """Every plane at one temperature: each framed layer by itself (ISO 6946 6.7.2.4)."""
    total = plain
    for section in itertools.chain.from_iterable(groups):
        conductance: Real = 0.0
        for share, resistance in section.paths():
            conductance = conductance + share / resistance
        total = total + 1.0 / conductance
    return total


def paths_in_line(group: Sequence[FramedSection]) -> list[_Path]:
    """Paths through framed layers whose members stand in line: shares of the area, m2 K/W.

    The members of all layers start from one edge of the bay and the missed parts from the other,
    so the area falls into strips in each of which every layer is of one kind.
    Shapes: the sections'.
    Range: at least one section.
    Raises: nothing.
    Source: ISO 6946:2017 6.7.2.2, for members in line.
    """
    if len(group) == 1:
        return group[0].paths()
    edges: list[Real] = [0.0, 1.0]
    for section in group:
        edges += [section.fraction, 1.0 - section.empty_share * (1.0 - section.fraction)]
    ordered = np.sort(np.stack(np.broadcast_arrays(*edges)), axis=0)
    paths: list[_Path] = []
    for start, end in itertools.pairwise(ordered):
        middle = (start + end) / 2.0
        resistance: Real = 0.0
        for section in group:
            missed_from = 1.0 - section.empty_share * (1.0 - section.fraction)
            cavity = np.where(middle > missed_from, section.empty, section.fill)
            resistance = resistance + np.where(middle < section.fraction, section.framing, cavity)
        paths.append((end - start, resistance))
    return paths


def _is_zero(value: Real) -> bool:
    return not value if isinstance(value, float | int) else not bool(np.any(value))
