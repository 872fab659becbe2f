"""How the temperature falls through an assembly along one route, steady and one-dimensional."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from server.core.arrays import Real, larger, smaller
from server.core.assembly import (
    OPEN_ENDS_FACTOR,
    AirLayer,
    FramedLayer,
    Layer,
    ResistanceLayer,
    SolidLayer,
    Ventilation,
    ventilated_share,
)
from server.core.films import HeatFlow, unventilated_air_layer


class Route(Enum):
    """The way through every framed layer."""

    FILL = "fill"
    FRAMING = "framing"


@dataclass(frozen=True, slots=True, eq=False)
class Step:
    """A piece of a route. layer: its index, None for a film; thickness m; resistance m2 K/W."""

    layer: int | None
    thickness: Real
    resistance: Real


def route_steps(
    layers: Sequence[Layer],
    route: Route,
    flow: HeatFlow,
    inside_film: float,
    outside_film: float,
) -> tuple[Step, ...]:
    """The steps of a route from the air inside to the air outside, films included.

    What lies outside a well-ventilated layer is at outdoor temperature, and the surface behind it
    takes the inside film. From a slightly ventilated layer outward every resistance is reduced
    alike, so that the sum is what `total_resistance` takes. Missed spots are not followed.
    Shapes: layer quantities any; each step its layer's.
    Range: framing that conducts less than 10 W/(m K).
    Raises: nothing.
    Source: ISO 6946:2017 6.7.2.3 (one path of the upper limit) and 6.9 (air layers).
    """
    steps = [Step(None, 0.0, inside_film)]
    for index, layer in enumerate(layers):
        open_share = _open_share(layer)
        if open_share is not None:
            rest = [
                step for i in range(index, len(layers)) for step in _within(layers, i, route, flow)
            ]
            return (*steps, *_behind_air(rest, open_share, inside_film, outside_film))
        steps += _within(layers, index, route, flow)
    return (*steps, Step(None, 0.0, outside_film))


def interface_temperatures(steps: Sequence[Step], inside: Real, outside: Real) -> tuple[Real, ...]:
    """Temperatures between the steps of a route: the air inside first, the air outside last.

    Every plane is taken at one temperature: T_j = T_in - (T_in - T_out) sum(R to j) / sum(R).
    Shapes: any that broadcast; deg C; one more than there are steps.
    Range: resistances that sum above zero.
    Raises: nothing.
    Source: Fourier's law in one dimension; ISO 13788:2012 6.3 (memory).
    """
    total: Real = 0.0
    for step in steps:
        total = total + step.resistance
    passed: Real = 0.0
    temperatures = [inside]
    for step in steps:
        passed = passed + step.resistance
        temperatures.append(inside - (inside - outside) * passed / total)
    return tuple(temperatures)


def _open_share(layer: Layer) -> Real | None:
    """How far a layer is open to outdoors, 0 to 1; None for one that is not an open air layer."""
    if not isinstance(layer, AirLayer) or layer.ventilation is Ventilation.UNVENTILATED:
        return None
    if layer.ventilation is Ventilation.WELL:
        return 1.0
    return ventilated_share(layer.opening_area)


def _behind_air(
    rest: Sequence[Step], open_share: Real, inside_film: float, outside_film: float
) -> list[Step]:
    """A ventilated layer and all outside it, films included.

    Open all the way, the film stands before the layer; else each step keeps its place.
    """
    if isinstance(open_share, float) and open_share == 1.0:
        outdoors = [replace(step, resistance=0.0) for step in rest]
        return [Step(None, 0.0, inside_film), *outdoors]
    still: Real = outside_film
    for step in rest:
        still = still + step.resistance
    reduced = ((1.0 - open_share) * still + open_share * inside_film) / still
    return [
        replace(step, resistance=step.resistance * reduced)
        for step in (*rest, Step(None, 0.0, outside_film))
    ]


def _within(layers: Sequence[Layer], index: int, route: Route, flow: HeatFlow) -> list[Step]:
    layer = layers[index]
    if isinstance(layer, FramedLayer):
        made = _open_bay(layer, route) if layer.open else _closed_bay(layer, route, flow)
        return [Step(index, thickness, resistance) for thickness, resistance in made]
    if isinstance(layer, SolidLayer):
        return [Step(index, layer.thickness, layer.thickness / layer.material.conductivity)]
    if isinstance(layer, ResistanceLayer):
        return [Step(index, 0.0, layer.resistance)]
    return [Step(index, layer.thickness, unventilated_air_layer(layer.thickness, flow))]


def _closed_bay(layer: FramedLayer, route: Route, flow: HeatFlow) -> list[tuple[Real, Real]]:
    """Fill, then the air that is left of the bay."""
    if route is Route.FRAMING:
        return [(layer.depth, layer.depth / layer.framing.conductivity)]
    if layer.fill is None:
        still = unventilated_air_layer(layer.depth, flow)
        return [(layer.depth, still * (OPEN_ENDS_FACTOR if layer.open_ends else 1.0))]
    filled = layer.depth if layer.fill_thickness is None else layer.fill_thickness
    left = larger(layer.depth - filled, 0.0)
    return [(filled, filled / layer.fill.conductivity), (left, unventilated_air_layer(left, flow))]


def _open_bay(layer: FramedLayer, route: Route) -> list[tuple[Real, Real]]:
    """Up to the fill's height, the fill above the framing, and framing that stands out in air."""
    if layer.fill is None:
        return [(layer.depth, 0.0)]
    filled = layer.depth if layer.fill_thickness is None else layer.fill_thickness
    height = smaller(filled, layer.depth)
    above = larger(filled - layer.depth, 0.0)
    between = layer.framing if route is Route.FRAMING else layer.fill
    return [
        (height, height / between.conductivity),
        (above, above / layer.fill.conductivity),
        (layer.depth - height, 0.0),
    ]
