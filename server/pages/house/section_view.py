"""A component's section as a page shows it: the drawing, its layers in words, its temperatures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.core.assembly import Assembly, FramedLayer, Layer, ResistanceLayer, SolidLayer
from server.core.design_night import design_night
from server.core.evaluate import Result
from server.core.house import GROUND, GROUND_KINDS, Component
from server.core.label_against_real import RealResistance, real_resistance
from server.core.temperature_line import Route, interface_temperatures, route_steps
from server.core.transmittance import films_of
from server.drawings.section import Section, TemperatureRoute, section
from server.files.material_groups import group_of
from server.recipes import stock
from server.units import System, format_quantity

LEAST_DIFFERENCE = 0.5  # K: with less between the two sides no line is drawn
_LEAST_SIXTEENTH = stock.INCH / 16.0  # m

_HATCHES = {
    "structure": "wood",
    "sheathing": "wood",
    "flooring": "wood",
    "cladding": "wood",
    "plaster": "stipple",
    "board": "stipple",
    "concrete": "stipple",
    "soil": "soil",
    "batt": "batt",
    "dense-pack": "blown",
    "loose-fill": "blown",
    "sprayed-foam": "blown",
    "rigid-foam": "board",
    "rigid-mineral-wool": "board",
    "rigid-natural": "board",
    "rigid-mineral": "board",
    "membrane": "solid",
    "air-tight": "solid",
    "metal": "solid",
    "glass": "solid",
    "masonry-old": "masonry",
    "masonry-new": "masonry",
    "roofing": "roofing",
}
# Within a group, what is drawn otherwise, by a word of the name; the first that fits.
_HATCH_BY_WORD = (
    ("brick", "masonry"),
    ("stone", "masonry"),
    ("stucco", "stipple"),
    ("cement", "stipple"),
    ("gypsum", "stipple"),
    ("vinyl siding", "solid"),
    ("metal", "solid"),
)


@dataclass(frozen=True, slots=True)
class LayerWords:
    """One layer beside the drawing."""

    name: str
    thickness: str


@dataclass(frozen=True, slots=True)
class Face:
    """The temperature of one plane, deg C, by route. framing: None where nothing is framed."""

    place: str
    fill: float
    framing: float | None


@dataclass(frozen=True, slots=True)
class SectionView:
    """Everything a page shows of one section.

    real: with films, and without the soil of a part in the ground. framing_share, missed_share:
    of the area and of the bays. faces: empty where no design night is known.
    """

    drawing: Section
    layers: tuple[LayerWords, ...]
    faces: tuple[Face, ...]
    real: RealResistance
    label: float | None
    framing_share: float | None
    missed_share: float
    has_fasteners: bool
    is_in_ground: bool
    other_side: str


def section_view(result: Result, index: int, system: System) -> SectionView | None:
    """The section of a component of a result; None where only its U is known."""
    part = result.house.components[index]
    built = part.construction
    if not isinstance(built, Assembly):
        return None
    films = films_of(part, result.house.films)
    routes = _routes(result, part, built.layers, films)
    framed = [layer for layer in built.layers if isinstance(layer, FramedLayer)]
    label = built.label_resistance
    return SectionView(
        drawing=section(built.layers, hatch_of, routes),
        layers=tuple(_words(layer, system) for layer in built.layers),
        faces=_faces(built.layers, routes, part),
        real=real_resistance(built.layers, part.heat_flow, *films),
        label=None if label is None else float(label),
        framing_share=float(framed[0].fraction) if len(framed) == 1 else None,
        missed_share=max((float(layer.empty_share) for layer in framed), default=0.0),
        has_fasteners=any(isinstance(x, SolidLayer) and x.fasteners for x in built.layers),
        is_in_ground=part.kind in GROUND_KINDS,
        other_side=part.to_space,
    )


def hatch_of(material: str) -> str:
    """How a material is drawn in a section."""
    lower = material.lower()
    group = group_of(material)
    for word, hatch in _HATCH_BY_WORD:
        if word in lower and group not in ("batt", "rigid-natural"):
            return hatch
    return _HATCHES.get(group or "", "unknown")


def _routes(
    result: Result, part: Component, layers: Sequence[Layer], films: tuple[float, float]
) -> list[TemperatureRoute]:
    """Through the fill and, where there is framing, through it; none where no night is known."""
    night = design_night(result)
    if night is None or part.to_space == GROUND:
        return []
    inside, outside = float(night[part.from_space]), float(night[part.to_space])
    if abs(inside - outside) < LEAST_DIFFERENCE:
        return []
    is_framed = any(isinstance(each, FramedLayer) and float(each.fraction) > 0.0 for each in layers)
    made = []
    for route in Route if is_framed else (Route.FILL,):
        steps = route_steps(layers, route, part.heat_flow, *films)
        temperatures = interface_temperatures(steps, inside, outside)
        made.append(TemperatureRoute(route, steps, [float(each) for each in temperatures]))
    return made


def _faces(
    layers: Sequence[Layer], routes: Sequence[TemperatureRoute], part: Component
) -> tuple[Face, ...]:
    if not routes:
        return ()
    columns = [_at_faces(route, len(layers)) for route in routes]
    places = [
        _("Air, {space}").format(space=part.from_space),
        _("Inside surface"),
        *(_("Outside of layer {number}").format(number=i + 1) for i in range(len(layers) - 1)),
        _("Outer surface"),
        _("Air, {space}").format(space=part.to_space),
    ]
    framing = columns[1] if len(columns) > 1 else [None] * len(places)
    return tuple(Face(*row) for row in zip(places, columns[0], framing, strict=True))


def _at_faces(route: TemperatureRoute, count: int) -> list[float]:
    """Air, inside surface, the outer face of every layer, air."""
    faces = {step.layer: route.temperatures[i + 1] for i, step in enumerate(route.steps)}
    return [
        route.temperatures[0],
        route.temperatures[1],
        *(faces[index] for index in range(count)),
        route.temperatures[-1],
    ]


def _words(layer: Layer, system: System) -> LayerWords:
    return LayerWords(_name(layer), _thickness(layer, system))


def _name(layer: Layer) -> str:
    if isinstance(layer, SolidLayer):
        return layer.material.name
    if isinstance(layer, FramedLayer):
        fill = _("air") if layer.fill is None else layer.fill.name
        return _("{framing} with {fill} between").format(framing=layer.framing.name, fill=fill)
    if isinstance(layer, ResistanceLayer):
        return layer.name or _("only its R is known")
    return _("air layer, {sort}").format(sort=layer.ventilation.value)


def _thickness(layer: Layer, system: System) -> str:
    if isinstance(layer, ResistanceLayer):
        return _("not to scale")
    if not isinstance(layer, FramedLayer):
        return thickness_text(float(layer.thickness), system)
    depth = float(layer.depth)
    fill = depth if layer.fill_thickness is None else float(layer.fill_thickness)
    if layer.fill is None or abs(fill - depth) < _LEAST_SIXTEENTH / 2.0:
        return thickness_text(depth, system)
    return _("{depth}, fill {fill}").format(
        depth=thickness_text(depth, system), fill=thickness_text(fill, system)
    )


def thickness_text(thickness: float, system: System) -> str:
    """A thickness as the trade writes it, m: to 1/16 in, or in mm."""
    if system == "ip" and thickness >= _LEAST_SIXTEENTH:
        return stock.inches(thickness / stock.INCH)
    if thickness >= _LEAST_SIXTEENTH:
        return format_quantity(thickness, "thickness", system)
    return format_quantity(thickness, "thickness", system, 3 if system == "ip" else 2)
