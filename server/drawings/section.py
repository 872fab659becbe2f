"""A section through an assembly to scale: layers inside to outside, framing, temperature lines.

Lengths of the drawing are units of its view box; metres become units by one scale.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from server.core.assembly import AirLayer, FramedLayer, Layer, ResistanceLayer, Ventilation
from server.core.temperature_line import Route, Step

WIDTH = 360.0
MARGIN = 40.0  # at either side: the room, and outdoors
MOST_UNITS_PER_M = 1400.0  # thin assemblies are drawn no larger than this
MEMBER = 0.038  # m, the width of a member as framed today
UNKNOWN = 0.013  # m, drawn where only a resistance is known
SPACING = 15.0  # units between two labels
_LINES_TOP, _LINES_BOTTOM = 22.0, 112.0
_BODY = 150.0  # height of the section itself
_LABELS = 62.0

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with its hatch; stroke: a path that spans it, empty for a pattern."""

    x: float
    y: float
    width: float
    height: float
    hatch: str
    stroke: str = ""


@dataclass(frozen=True, slots=True)
class Cut:
    """One layer: what fills it, its framing, and above and below which place its words stand."""

    number: int
    x: float
    width: float
    boxes: tuple[Box, ...]
    member: Box | None
    label_x: float

    @property
    def middle(self) -> float:
        """Where its leaders start."""
        return self.x + self.width / 2.0


@dataclass(frozen=True, slots=True)
class Line:
    """The temperature along one route."""

    route: str
    points: tuple[Point, ...]

    @property
    def path(self) -> str:
        """As a path of SVG."""
        return "M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in self.points)


@dataclass(frozen=True, slots=True)
class Section:
    """The drawing. top and bottom: of the layers; freezing: height of the freezing point."""

    cuts: tuple[Cut, ...]
    lines: tuple[Line, ...]
    top: float
    bottom: float
    height: float
    left: float
    right: float
    freezing: float | None
    width: float = WIDTH


@dataclass(frozen=True, slots=True)
class TemperatureRoute:
    """The steps of one route and the temperatures between them, deg C."""

    route: Route
    steps: Sequence[Step]
    temperatures: Sequence[float]


def section(
    layers: Sequence[Layer],
    hatch_of: Callable[[str], str],
    routes: Sequence[TemperatureRoute] = (),
) -> Section:
    """Lay a section out. hatch_of: the hatch of a material by its name."""
    top = _LINES_BOTTOM + 46.0 if routes else 34.0
    bottom = top + _BODY
    thicknesses = [_drawn_thickness(layer) for layer in layers]
    scale = min((WIDTH - 2.0 * MARGIN) / sum(thicknesses), MOST_UNITS_PER_M)
    left = (WIDTH - scale * sum(thicknesses)) / 2.0
    edges = [left]
    for thickness in thicknesses:
        edges.append(edges[-1] + thickness * scale)
    middles = [(first + second) / 2.0 for first, second in itertools.pairwise(edges)]
    spread = _spread(middles)
    frame = _Frame(top, bottom, scale, hatch_of)
    cuts = []
    for index, layer in enumerate(layers):
        width = edges[index + 1] - edges[index]
        boxes, member = frame.filled(layer, edges[index], width)
        cuts.append(Cut(index + 1, edges[index], width, boxes, member, spread[index]))
    lines, freezing = _lines(routes, edges, scale)
    return Section(tuple(cuts), lines, top, bottom, bottom + _LABELS, left, edges[-1], freezing)


def _drawn_thickness(layer: Layer) -> float:
    if isinstance(layer, ResistanceLayer):
        return UNKNOWN
    if isinstance(layer, FramedLayer):
        fill = layer.fill_thickness if layer.open and layer.fill_thickness is not None else 0.0
        return max(float(layer.depth), float(fill))
    return float(layer.thickness)


def _spread(middles: Sequence[float]) -> list[float]:
    """Middles moved apart to where labels have room, kept in order and within the drawing."""
    placed: list[float] = []
    for middle in middles:
        placed.append(max(middle, placed[-1] + SPACING) if placed else max(middle, SPACING))
    limit = WIDTH - SPACING / 2.0
    for index in range(len(placed) - 1, -1, -1):
        placed[index] = min(placed[index], limit)
        limit = placed[index] - SPACING
    return placed


@dataclass(slots=True)
class _Frame:
    top: float
    bottom: float
    scale: float
    hatch_of: Callable[[str], str]
    framed: int = 0
    members: list[float] = field(default_factory=list)

    def filled(self, layer: Layer, x: float, width: float) -> tuple[tuple[Box, ...], Box | None]:
        """The boxes that a layer is drawn with, and its framing member."""
        if isinstance(layer, FramedLayer):
            return self._bay(layer, x, width), self._member(layer, x)
        if isinstance(layer, ResistanceLayer):
            return (self._box(x, width, "unknown"),), None
        if isinstance(layer, AirLayer):
            return (self._box(x, width, _AIR[layer.ventilation]),), None
        return (self._box(x, width, self.hatch_of(layer.material.name)),), None

    def _bay(self, layer: FramedLayer, x: float, width: float) -> tuple[Box, ...]:
        if layer.fill is None:
            return (self._box(x, width, "outdoor-air" if layer.open else "air"),)
        whole = float(layer.depth)
        filled = whole if layer.fill_thickness is None else float(layer.fill_thickness)
        filled_width = min(filled * self.scale, width)
        boxes = [self._box(x, filled_width, self.hatch_of(layer.fill.name))]
        if width - filled_width > 0.1:
            rest = "outdoor-air" if layer.open else "air"
            boxes.append(self._box(x + filled_width, width - filled_width, rest))
        return tuple(boxes)

    def _member(self, layer: FramedLayer, x: float) -> Box | None:
        """One member; that of a crossing layer stands elsewhere than the one further inside."""
        if not float(layer.fraction):
            return None
        height = min(max(MEMBER * self.scale, 12.0), 60.0)
        if not (layer.aligned and self.members):
            share = 0.68 if len(self.members) % 2 == 0 else 0.24
            self.members.append(self.top + (self.bottom - self.top) * share - height / 2.0)
        y = self.members[-1]
        return Box(x, y, float(layer.depth) * self.scale, height, self.hatch_of(layer.framing.name))

    def _box(self, x: float, width: float, hatch: str) -> Box:
        height = self.bottom - self.top
        stroke = ""
        if hatch == "batt":
            stroke = _loops(x, self.top, width, height)
        elif hatch == "board":
            stroke = _zigzag(x, self.top, width, height)
        return Box(x, self.top, width, height, hatch, stroke)


_AIR: Mapping[Ventilation, str] = {
    Ventilation.UNVENTILATED: "air",
    Ventilation.SLIGHTLY: "vented-air",
    Ventilation.WELL: "outdoor-air",
}


def _loops(x: float, y: float, width: float, height: float) -> str:
    """The loops of a batt: one line that turns round at either face."""
    count = max(round(height / min(max(width * 0.3, 5.0), 14.0)), 4)
    rise = height / count
    radius = rise / 2.0
    near, far = x + min(radius, width / 2.0), x + max(width - radius, width / 2.0)
    path = f"M{near:.1f} {y + radius:.1f}"
    for index in range(count):
        end, sweep = (far, 1) if index % 2 == 0 else (near, 0)
        path += f" H{end:.1f}"
        if index + 1 < count:
            turned = y + rise * (index + 1) + radius
            path += f" A{radius:.1f} {radius:.1f} 0 0 {sweep} {end:.1f} {turned:.1f}"
    return path


def _zigzag(x: float, y: float, width: float, height: float) -> str:
    """The zigzag of a rigid board, from face to face."""
    count = max(round(height / min(max(width * 0.45, 4.0), 14.0)), 4)
    rise = height / count
    sides = (x, x + width)
    points = [f"{sides[index % 2]:.1f} {y + rise * index:.1f}" for index in range(count + 1)]
    return "M" + " L".join(points)


def _lines(
    routes: Sequence[TemperatureRoute], edges: Sequence[float], scale: float
) -> tuple[tuple[Line, ...], float | None]:
    """Temperature lines on one scale, warm above cold."""
    if not routes:
        return (), None
    all_of_them = [float(each) for route in routes for each in route.temperatures]
    low, high = min(all_of_them), max(all_of_them)
    span = (high - low) or 1.0

    def height(temperature: float) -> float:
        share = (high - temperature) / span
        return _LINES_TOP + share * (_LINES_BOTTOM - _LINES_TOP)

    lines = []
    for route in routes:
        xs = _places(route.steps, edges, scale)
        heights = [height(float(each)) for each in route.temperatures]
        lines.append(Line(route.route.value, tuple(zip(xs, heights, strict=True))))
    return tuple(lines), height(0.0) if low < 0.0 < high else None


def _places(steps: Sequence[Step], edges: Sequence[float], scale: float) -> list[float]:
    """Where the temperatures between the steps stand; the outer films reach into the margins."""
    first, last = edges[0], edges[-1]
    places = [first - MARGIN / 2.0]
    here = first
    for index, step in enumerate(steps):
        if step.layer is not None:
            start, end = edges[step.layer], edges[step.layer + 1]
            begun = here if start <= here <= end else start
            here = min(begun + float(step.thickness) * scale, end)
            if index + 1 == len(steps) or steps[index + 1].layer != step.layer:
                here = end
        elif index and index + 1 == len(steps):
            here = last + MARGIN / 2.0
        places.append(here)
    return places
