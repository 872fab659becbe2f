"""The resistance of an assembly: its layers, every path through it, both limits."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from server.core.arrays import Real, larger, smaller
from server.core.assembly import (
    AirLayer,
    Assembly,
    FramedLayer,
    Layer,
    ResistanceLimits,
    SolidLayer,
    Split,
    Ventilation,
    paths_in_line,
    split,
    tapered_resistance,
    tapering,
    total_resistance,
    ventilated_share,
)
from server.core.explain.base import SUM, Column, Explanation, Formula, Input, Label
from server.core.explain.parts import ISO_6946
from server.core.films import HeatFlow
from server.core.house import Component, House
from server.core.materials import Material
from server.core.transmittance import films_of

AIR_LAYERS = "ISO 6946:2017 6.9"
FASTENERS = "ISO 6946:2017 Annex F.3 (memory)"

_OF_LAYER = Formula("layer_resistance", "R", "d/λ", "m²·K/W", ISO_6946)
_PATH = Formula("path_resistance", "R", SUM, "m²·K/W", ISO_6946)
_LOWER = Formula("lower_limit", "R_lo", SUM, "m²·K/W", ISO_6946)
_TAPERED = Formula(
    "tapered", "R", "R_1/ln(1 + R_1/R_0)", "m²·K/W", "ISO 6946:2017 Annex E.2 (memory)"
)
_BETWEEN = Formula(
    "between_still_and_open", "R", "(1 - a)*R_still + a*R_open", "m²·K/W", AIR_LAYERS
)


@dataclass(frozen=True, slots=True, eq=False)
class LayerWorking:
    """An assembly taken apart. names: of the rows of its table. steps: named explanations."""

    assembly: Assembly
    names: tuple[str, ...]
    columns: tuple[Column, ...]
    steps: tuple[tuple[str, Explanation], ...]


def layer_working(house: House, part: Component) -> LayerWorking | None:
    """The layers of a component and how both its limits come about; None where only U is known.

    Films are in it; of a part in the ground they are its own, and the soil is not.
    Shapes: one house without draws, m2 K/W. Range: any component. Raises: nothing.
    Source: ISO 6946:2017 6.7 and 6.9.
    """
    built = part.construction
    if not isinstance(built, Assembly):
        return None
    inside, outside = films_of(part, house.films)
    names, columns = _table(built.layers)
    steps = _limits(built.layers, part.heat_flow, inside, outside, "")
    return LayerWorking(built, names, columns, tuple(steps))


def layer_name(layer: Layer) -> str:
    """What a layer is called: as somebody named it, or by what it is made of.

    Shapes: one layer. Range: any. Raises: nothing.
    Source: definition.
    """
    if layer.name:
        return Label(layer.name)
    if isinstance(layer, SolidLayer):
        return Label(layer.material.name)
    if isinstance(layer, FramedLayer):
        fill = "air" if layer.fill is None else layer.fill.name
        return Label(f"{layer.framing.name}, {fill}")
    return "air_layer" if isinstance(layer, AirLayer) else "known_resistance"


def _table(layers: Sequence[Layer]) -> tuple[tuple[str, ...], tuple[Column, ...]]:
    """What is of one material, as rows: solid layers, framing, fill."""
    rows: list[tuple[Label, Real, Real]] = []
    for layer in layers:
        if isinstance(layer, SolidLayer):
            thin = layer.thickness if layer.thinnest is None else layer.thinnest
            rows.append(_row(layer.material, thin))
        elif isinstance(layer, FramedLayer):
            rows += _framed_rows(layer)
    names = tuple(name for name, _thickness, _conductivity in rows)
    thickness = tuple(thickness for _name, thickness, _conductivity in rows)
    conductivity = tuple(conductivity for _name, _thickness, conductivity in rows)
    resistance = tuple(d / k for d, k in zip(thickness, conductivity, strict=True))
    return names, (
        Column("d", "thickness", "m", thickness),
        Column("λ", "conductivity", "W/(m·K)", conductivity),
        Column("R", "layer", "m²·K/W", resistance, _OF_LAYER),
    )


def _row(material: Material, thickness: Real) -> tuple[Label, Real, Real]:
    return Label(material.name), thickness, material.conductivity


def _framed_rows(layer: FramedLayer) -> list[tuple[Label, Real, Real]]:
    """Framing and fill; in an open layer up to the height of both, then what rises above."""
    if layer.fill is None:
        return [] if layer.open else [_row(layer.framing, layer.depth)]
    filled = layer.depth if layer.fill_thickness is None else layer.fill_thickness
    if not layer.open:
        return [_row(layer.framing, layer.depth), _row(layer.fill, filled)]
    height = smaller(filled, layer.depth)
    above = larger(filled - layer.depth, 0.0)
    rows = [_row(layer.framing, height), _row(layer.fill, height)]
    return [*rows, _row(layer.fill, above)] if bool(np.all(above)) else rows


def _limits(
    layers: Sequence[Layer], flow: HeatFlow, inside: float, outside: float, prefix: str
) -> list[tuple[str, Explanation]]:
    for index, layer in enumerate(layers):
        if not isinstance(layer, AirLayer) or layer.ventilation is Ventilation.UNVENTILATED:
            continue
        behind = _plain(layers[:index], flow, inside, inside, prefix)
        if layer.ventilation is Ventilation.WELL:
            return behind
        return _slightly(layers, index, flow, (inside, outside))
    return _plain(layers, flow, inside, outside, prefix)


def _slightly(
    layers: Sequence[Layer], index: int, flow: HeatFlow, films: tuple[float, float]
) -> list[tuple[str, Explanation]]:
    """A slightly ventilated layer: as if still, as if open, and between them."""
    layer = layers[index]
    assert isinstance(layer, AirLayer)
    calm = [*layers]
    calm[index] = replace(layer, ventilation=Ventilation.UNVENTILATED)
    wide = [*layers]
    wide[index] = replace(layer, ventilation=Ventilation.WELL)
    share = ventilated_share(layer.opening_area)
    steps = _limits(calm, flow, *films, "still/") + _limits(wide, flow, *films, "open/")
    still, opened = total_resistance(calm, flow, *films), total_resistance(wide, flow, *films)
    for name, read in (("upper_limit", _upper), ("lower_limit", _lower)):
        inputs = (
            Input("R_still", f"still/{name}", read(still), "m²·K/W"),
            Input("R_open", f"open/{name}", read(opened), "m²·K/W"),
            Input("a", "ventilated_share", share, ""),
        )
        value = (1.0 - share) * read(still) + share * read(opened)
        steps.append((name, Explanation(_BETWEEN, value, inputs)))
    return steps


def _upper(limits: ResistanceLimits) -> Real:
    return limits.upper


def _lower(limits: ResistanceLimits) -> Real:
    return limits.lower


def _plain(
    layers: Sequence[Layer], flow: HeatFlow, inside: float, outside: float, prefix: str
) -> list[tuple[str, Explanation]]:
    """Paths, planes and limits of layers without a ventilated one."""
    more: Real = 0.0
    for layer in layers:
        more = more + tapering(layer)
    if bool(np.any(more)):
        return _tapered(layers, more, flow, inside, outside, prefix)
    parts = split(layers, flow)
    films = [("inside_film", inside), ("outer_film", outside)]
    same: list[tuple[str, Real]] = [
        *films[:1],
        *((layer_name(layers[index]), value) for index, value in parts.plain),
        *films[1:],
    ]
    paths = _paths(layers, parts, same)
    steps: list[tuple[str, Explanation]] = []
    if len(paths) > 1:
        for number, (_share, members) in enumerate(paths, start=1):
            steps.append((f"{prefix}path_{number}", _sum(_PATH, members)))
    conductance: Real = 0.0
    for share, members in paths:
        conductance = conductance + share / sum(value for _name, value in members)
    terms, inputs = [], []
    for number, (share, members) in enumerate(paths, start=1):
        terms.append(f"s_{number}/R_{number}")
        resistance = sum(value for _name, value in members)
        inputs += [
            Input(f"s_{number}", "share_of_path", share, ""),
            Input(f"R_{number}", f"path_{number}", resistance, "m²·K/W"),
        ]
    if len(paths) > 1:
        upper = Formula("upper_limit", "R_up", f"1/({' + '.join(terms)})", "m²·K/W", ISO_6946)
        told = Explanation(upper, 1.0 / conductance, tuple(inputs))
    else:
        told = _sum(_PATH, paths[0][1])
    steps.append((f"{prefix}upper_limit", told))
    planes = _planes(layers, parts)
    steps += [(name, plane) for name, plane in planes]
    lower = [*same[:-1], *((name, plane.value) for name, plane in planes), same[-1]]
    steps.append((f"{prefix}lower_limit", _sum(_LOWER, lower)))
    return steps


def _tapered(
    layers: Sequence[Layer],
    more: Real,
    flow: HeatFlow,
    inside: float,
    outside: float,
    prefix: str,
) -> list[tuple[str, Explanation]]:
    """Both limits at the thin edge, then over the whole."""
    steps = _plain([_thin(layer) for layer in layers], flow, inside, outside, f"{prefix}thin/")
    at_edge = dict(steps)
    for name in ("upper_limit", "lower_limit"):
        edge = at_edge[f"{prefix}thin/{name}"].value
        inputs = (
            Input("R_0", f"thin/{name}", edge, "m²·K/W"),
            Input("R_1", "tapering", more, "m²·K/W"),
        )
        told = Explanation(_TAPERED, tapered_resistance(edge, more), inputs)
        steps.append((f"{prefix}{name}", told))
    return steps


def _thin(layer: Layer) -> Layer:
    """A layer as it is at its thin edge."""
    if isinstance(layer, SolidLayer) and layer.thinnest is not None:
        return replace(layer, thickness=layer.thinnest, thinnest=None, fasteners=None)
    return layer


def _paths(
    layers: Sequence[Layer], parts: Split, same: Sequence[tuple[str, Real]]
) -> list[tuple[Real, list[tuple[str, Real]]]]:
    """Share of every path, and the resistances along it."""
    named = []
    for group in parts.groups:
        name = " + ".join(layer_name(layers[index]) for index, _section in group)
        sections = [section for _index, section in group]
        named.append([(share, (Label(name), value)) for share, value in paths_in_line(sections)])
    paths = []
    for route in itertools.product(*named):
        share: Real = 1.0
        for each, _member in route:
            share = share * each
        paths.append((share, [*same[:-1], *(member for _each, member in route), same[-1]]))
    return paths


def _planes(layers: Sequence[Layer], parts: Split) -> list[tuple[str, Explanation]]:
    """Each framed layer by itself, as the lower limit takes it."""
    planes = []
    for index, section in itertools.chain.from_iterable(parts.groups):
        terms, inputs = [], []
        conductance: Real = 0.0
        for number, (share, value) in enumerate(section.paths(), start=1):
            terms.append(f"s_{number}/R_{number}")
            inputs += [
                Input(f"s_{number}", "share_of_path", share, ""),
                Input(f"R_{number}", f"side_{number}", value, "m²·K/W"),
            ]
            conductance = conductance + share / value
        formula = Formula("plane", "R", f"1/({' + '.join(terms)})", "m²·K/W", ISO_6946)
        name = layer_name(layers[index])
        planes.append((name, Explanation(formula, 1.0 / conductance, tuple(inputs))))
    return planes


def _sum(formula: Formula, members: Sequence[tuple[str, Real]]) -> Explanation:
    total: Real = 0.0
    for _name, value in members:
        total = total + value
    inputs = tuple(
        Input(f"R_{number}", name, value, "m²·K/W")
        for number, (name, value) in enumerate(members, start=1)
    )
    return Explanation(formula, total, inputs)
