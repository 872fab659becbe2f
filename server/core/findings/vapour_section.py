"""A component as the layers that vapour passes, with the air on both sides."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass

from server.core.assembly import Layer
from server.core.findings.case import Case, Part
from server.core.findings.indoor_air import Air
from server.core.findings.layers import diffusion_thickness, up_to_ventilation
from server.core.moisture import Climate13788, VapourLayer, saturation_pressure
from server.core.temperature_line import Route, route_steps

PAINTED = -1  # the number of the paint on the lining, which is no layer of the assembly
_LEAST_DIFFUSION = 1e-4  # m: a layer is never quite open


@dataclass(frozen=True, slots=True)
class VapourSection:
    """Paint and layers, inside to outside along the fill. numbers: the layer each is part of.

    inside_film, outside_film: m2 K/W; what lies outside of a vented gap is among the latter.
    unknown: names of layers whose vapour figure is missing.
    """

    layers: tuple[VapourLayer, ...]
    numbers: tuple[int, ...]
    climate: Climate13788
    inside_film: float
    outside_film: float
    unknown: tuple[str, ...]


def vapour_section(case: Case, part: Part) -> VapourSection | None:
    """The section of a component of the shell; None where the climate tells no humidity.

    A well-ventilated gap ends it: what lies outside of it is outdoors. Paint counts on a lining.
    Shapes: one component. Range: any. Raises: nothing.
    Source: ISO 13788:2012 clause 6 (memory).
    """
    sides = case.sides(part)
    if sides is None or not part.layers:
        return None

    def make() -> VapourSection:
        return _section(case, part, *sides)

    return case.shared(("vapour section", *section_key(case, part, sides)), make)


def section_key(case: Case, part: Part, sides: tuple[Air, Air]) -> tuple[Hashable, ...]:
    """What tells sections apart: the layers, which way heat flows, and the air on both sides.

    Shapes: one component. Range: any. Raises: nothing.
    Source: definition.
    """
    return (id(part.component.construction), part.component.heat_flow, case.films(part), *sides)


def _section(case: Case, part: Part, inside: Air, outside: Air) -> VapourSection:
    inside_film, outside_film = case.films(part)
    passed = up_to_ventilation(part.layers)
    steps = route_steps(
        part.layers, Route.FILL, part.component.heat_flow, inside_film, outside_film
    )
    layers, numbers, unknown = [], [], []
    paint = case.paint(part)
    if paint:
        layers.append(VapourLayer(0.0, paint))
        numbers.append(PAINTED)
    for number, layer in enumerate(passed):
        resistance = sum(float(step.resistance) for step in steps if step.layer == number)
        diffusion = diffusion_thickness(layer)
        if diffusion is None:
            unknown.append(_name(layer))
            continue
        layers.append(VapourLayer(resistance, max(diffusion, _LEAST_DIFFUSION)))
        numbers.append(number)
    whole = sum(float(step.resistance) for step in steps)
    passed_through = sum(
        float(step.resistance)
        for step in steps
        if step.layer is not None and step.layer < len(passed)
    )
    return VapourSection(
        tuple(layers),
        tuple(numbers),
        _climate(inside, outside),
        inside_film,
        whole - inside_film - passed_through,
        tuple(unknown),
    )


def _climate(inside: Air, outside: Air) -> Climate13788:
    humidity = tuple(
        pressure / saturation_pressure(temperature)
        for pressure, temperature in zip(outside.pressure, outside.temperature, strict=True)
    )
    return Climate13788(outside.temperature, humidity, inside.temperature, inside.pressure)


def _name(layer: Layer) -> str:
    if layer.name is not None:
        return layer.name
    material = getattr(layer, "material", None) or getattr(layer, "fill", None)
    return material.name if material is not None else "?"
