"""The picture of vapour in an assembly: pressure under saturation, and the water of a year."""

from __future__ import annotations

from dataclasses import dataclass

from server.core.findings.vapour_picture import VapourPicture

WIDTH, HEIGHT = 360.0, 150.0
LEFT, RIGHT, TOP, BOTTOM = 40.0, 12.0, 12.0, 26.0
MONTHS = 12

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Band:
    """One layer: its number, where it starts and how wide it is."""

    number: int
    name: str
    x: float
    width: float


@dataclass(frozen=True, slots=True)
class Bar:
    """The water at the end of a month."""

    month: int
    x: float
    y: float
    width: float
    height: float
    water: float


@dataclass(frozen=True, slots=True)
class VapourDrawing:
    """Lines over the layers' resistance to vapour, so that a straight line is steady flow.

    top_pressure: of the scale, Pa. bars: empty where nothing condenses; top_water: kg/m2.
    """

    month: int
    bands: tuple[Band, ...]
    saturation: tuple[Point, ...]
    pressure: tuple[Point, ...]
    top_pressure: float
    inside_pressure: float
    outside_pressure: float
    bars: tuple[Bar, ...]
    top_water: float
    width: float = WIDTH
    height: float = HEIGHT
    left: float = LEFT
    floor: float = HEIGHT - BOTTOM

    @property
    def saturation_path(self) -> str:
        """As a path of SVG."""
        return _path(self.saturation)

    @property
    def pressure_path(self) -> str:
        """As a path of SVG."""
        return _path(self.pressure)


def vapour_drawing(picture: VapourPicture) -> VapourDrawing:
    """Lay a picture out."""
    course = picture.course
    whole = course.diffusion[-1]
    top = max(*course.saturation, *course.pressure) * 1.05
    scale = (WIDTH - LEFT - RIGHT) / whole

    def points(figures: tuple[float, ...]) -> tuple[Point, ...]:
        return tuple(
            (LEFT + depth * scale, HEIGHT - BOTTOM - figure / top * (HEIGHT - TOP - BOTTOM))
            for depth, figure in zip(course.diffusion, figures, strict=True)
        )

    starts = [0.0, *(course.diffusion[node] for node in picture.edges)]
    bands = tuple(
        Band(
            number + 1,
            name,
            LEFT + starts[number] * scale,
            (starts[number + 1] - starts[number]) * scale,
        )
        for number, name in enumerate(picture.layers)
    )
    bars, most = _bars(picture)
    return VapourDrawing(
        picture.month,
        bands,
        points(course.saturation),
        points(course.pressure),
        top,
        course.pressure[0],
        course.pressure[-1],
        bars,
        most,
    )


def _bars(picture: VapourPicture) -> tuple[tuple[Bar, ...], float]:
    if not picture.water:
        return (), 0.0
    most = max(picture.water)
    step = (WIDTH - LEFT - RIGHT) / MONTHS
    bars = []
    for place, water in enumerate(picture.water):
        height = water / most * (HEIGHT - TOP - BOTTOM) if most else 0.0
        month = (picture.first_month + place) % MONTHS
        x = LEFT + place * step
        bars.append(Bar(month, x + 2.0, HEIGHT - BOTTOM - height, step - 4.0, height, water))
    return tuple(bars), most


def _path(points: tuple[Point, ...]) -> str:
    return "M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in points)
