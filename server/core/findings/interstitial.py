"""Condensation inside an assembly, month by month."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from server.core.assembly import Layer, SolidLayer
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import (
    CLOSED,
    INSULATES_BELOW,
    diffusion_through,
    materials_of,
    up_to_ventilation,
)
from server.core.findings.vapour_picture import VapourPicture
from server.core.findings.vapour_section import PAINTED, VapourSection, section_key, vapour_section
from server.core.moisture import Course, InterstitialYear, course_of_month, interstitial_year

MOST_WATER = 0.5  # kg/m2 at a time beside what takes up none, DIN 4108-3 (memory)
MOST_ANYWHERE = 1.0  # kg/m2 at a time, DIN 4108-3 (memory)
WOOD_TAKES, PANELS_TAKE = 0.05, 0.03  # of their mass, DIN 4108-3 (memory)
NOTHING = 0.025  # kg/m2 at a time: a film far too thin to run, and it dries (our judgement)
A_LITTLE = 0.05  # kg/m2 a year: it would take decades to do harm (our judgement)
PANELS = ("plywood", "strand", "particle", "fibreboard")
LEFT_OVER = ("stays wet", "gains a little")


@dataclass(frozen=True, slots=True)
class _Told:
    """What a year says of a section: kg/m2; where: the layer that is wet beyond its limit most."""

    outcome: str
    water: float
    limit: float
    remaining: float
    where: str
    picture: VapourPicture


def _judge(case: Case) -> Iterator[Found]:
    """Every layered component around what is inside, above the ground."""
    for part in case.shell:
        if part.is_opening:
            continue
        section = vapour_section(case, part)
        if section is None:
            yield Found("humidity not known" if part.layers else "layers not known", (part.name,))
        elif section.unknown:
            yield Found("vapour not known", (part.name,), {"layers": section.unknown})
        elif section.layers:
            yield _judged(case, part, section)


def picture_of(case: Case, index: int) -> VapourPicture | None:
    """Vapour in one component in its worst month, by its place in the house.

    Shapes: one component. Range: None for one of which this is not judged. Raises: nothing.
    Source: ISO 13788:2012 clause 6 (memory).
    """
    part = case.parts[index]
    if part not in case.shell or part.is_opening:
        return None
    section = vapour_section(case, part)
    if section is None or section.unknown or not section.layers:
        return None
    return _judged(case, part, section).picture


def _judged(case: Case, part: Part, section: VapourSection) -> Found:
    sides = case.sides(part)
    assert sides is not None
    key = ("interstitial", *section_key(case, part, sides))
    told = case.shared(key, lambda: _year(part, section))
    if told.outcome == "dry":
        return Found("dry", (part.name,), picture=told.picture)
    facts: dict[str, Fact] = {"water": _water(told.water), "where": told.where}
    facts["why"] = ("too little fresh air",) if case.airs.lacks_air else ()
    measured = Measured(_water(told.water), _water(told.limit))
    if told.outcome.startswith(LEFT_OVER):
        facts["remaining"] = _water(told.remaining)
        measured = Measured(_water(told.remaining), _water(0.0))
    return Found(told.outcome, (part.name,), facts, measured, told.picture)


def _water(mass: float) -> Quantity:
    return Quantity(round(mass, 4), "mass_per_area")


def _year(part: Part, section: VapourSection) -> _Told:
    year = interstitial_year(
        section.layers,
        section.climate,
        inside_film=section.inside_film,
        outside_film=section.outside_film,
    )
    picture = _picture(part, section, year)
    if not year.planes or (year.verdict != "stays wet" and year.peak < NOTHING):
        return _Told("dry", 0.0, 0.0, 0.0, "", picture)
    number, water, limit = _wettest(part, section, year)
    if water <= limit and year.peak > MOST_ANYWHERE:
        water, limit = year.peak, MOST_ANYWHERE
    outcome = _outcome(part, section, year, enough=water <= limit)
    where = _numbered_name(part, number)
    return _Told(outcome, water, limit, year.remaining, where, picture)


def _wets_in_summer(section: VapourSection, year: InterstitialYear) -> bool:
    """Whether vapour comes from outdoors into what cooling keeps cold."""
    climate, month = section.climate, year.worst_month
    return climate.indoor_temperature[month] < climate.outdoor_temperature[month]


def _outcome(part: Part, section: VapourSection, year: InterstitialYear, *, enough: bool) -> str:
    summer = _wets_in_summer(section, year)
    if year.verdict == "stays wet":
        left = "stays wet" if year.remaining > A_LITTLE else "gains a little"
        if summer:
            return f"{left} from summer"
        return f"{left}, closed outside" if _is_closed_outside(part, section, year) else left
    if summer:
        return "sweats in summer" if enough else "sweats in summer, too much"
    if enough:
        return "dries"
    if not _is_closed_outside(part, section, year):
        return "dries, too much"
    return "soaks behind a closed skin" if year.peak > MOST_ANYWHERE else "too much, closed outside"


def _is_closed_outside(part: Part, section: VapourSection, year: InterstitialYear) -> bool:
    """Whether what lies outside of the outermost wet plane lets hardly any vapour out."""
    outside = part.layers[max(_outermost_wet(section, year), 0) :]
    return (diffusion_through(up_to_ventilation(outside)) or 0.0) > CLOSED


def most_water(layer: Layer) -> float:
    """What may condense on a layer at a time and do it no harm, kg/m2.

    5 % of the mass of wood, 3 % of that of wood panels, and 0.5 beside what takes up none.
    Shapes: one layer. Range: at most 1 kg/m2. Raises: nothing.
    Source: DIN 4108-3 (memory).
    """
    if not isinstance(layer, SolidLayer) or layer.material.density is None:
        return MOST_WATER
    material = layer.material
    mass = float(layer.material.density) * float(layer.thickness)
    if material.group not in ("sheathing", "structure") or "gypsum" in material.name.lower():
        return MOST_WATER
    is_panel = any(word in material.name.lower() for word in PANELS)
    is_panel = is_panel or float(material.conductivity) <= INSULATES_BELOW
    return min(MOST_ANYWHERE, mass * (PANELS_TAKE if is_panel else WOOD_TAKES))


def _outermost_wet(section: VapourSection, year: InterstitialYear) -> int:
    """The number of the layer outside of the outermost plane that gets wet."""
    place = max(plane.layer for plane in year.planes)
    return section.numbers[min(place, len(section.numbers) - 1)]


def _wettest(
    part: Part, section: VapourSection, year: InterstitialYear
) -> tuple[int, float, float]:
    """The layer that is wet most for what it may take up: number, most water, limit, kg/m2."""
    months: dict[int, list[float]] = {}
    for plane, place in enumerate(_holders(section, year)):
        row = months.setdefault(section.numbers[place], [0.0] * len(year.water))
        for month, water in enumerate(year.water):
            row[month] += water[plane]
    wet = [(number, max(row), _limit(part, number)) for number, row in months.items()]
    return max(wet, key=lambda each: each[1] / each[2])


def _holders(section: VapourSection, year: InterstitialYear) -> Iterator[int]:
    """The layer that holds the water of each plane, by its place in the section.

    Between two layers it lies on the cold one: the outer in winter, the inner in summer.
    """
    back = 1 if _wets_in_summer(section, year) else 0
    for plane in year.planes:
        place = plane.layer if plane.depth else plane.layer - back
        yield min(max(place, 0), len(section.numbers) - 1)


def _limit(part: Part, number: int) -> float:
    return MOST_WATER if number == PAINTED else most_water(part.layers[number])


def _numbered_name(part: Part, number: int) -> str:
    """A layer's name, with its number from inside where another is called alike."""
    name = _layer_name(part, number)
    alike = [other for other in range(len(part.layers)) if _layer_name(part, other) == name]
    return name if len(alike) < 2 else f"{name} ({number + 1})"


def _layer_name(part: Part, number: int) -> str:
    if number == PAINTED:
        return "paint"
    layer = part.layers[number]
    if layer.name is not None:
        return layer.name
    names = [material.name for material in materials_of([layer])]
    return names[-1] if names else "air layer"


def _picture(part: Part, section: VapourSection, year: InterstitialYear) -> VapourPicture:
    """The month that condenses most, else the one that comes nearest to it."""
    films = {"inside_film": section.inside_film, "outside_film": section.outside_film}
    course = course_of_month(section.layers, section.climate, year.worst_month, **films)
    return VapourPicture(
        year.worst_month,
        course,
        tuple(_layer_name(part, number) for number in section.numbers),
        _edges(section, course),
        0 if section.numbers[0] == PAINTED else 1,
        year.first_month,
        tuple(sum(row) for row in year.water) if year.planes else (),
    )


def _edges(section: VapourSection, course: Course) -> tuple[int, ...]:
    """The node at the outer face of every layer."""
    ends = list(itertools.accumulate(layer.diffusion_thickness for layer in section.layers))
    diffusion = course.diffusion
    return tuple(min(range(len(diffusion)), key=lambda n: abs(diffusion[n] - end)) for end in ends)


RULE = Rule(
    "interstitial",
    {
        "dry": Severity.GOOD,
        "dries": Severity.WATCH,
        "dries, too much": Severity.MEND,
        "too much, closed outside": Severity.MEND,
        "soaks behind a closed skin": Severity.STOP,
        "sweats in summer": Severity.WATCH,
        "sweats in summer, too much": Severity.MEND,
        "gains a little": Severity.MEND,
        "gains a little, closed outside": Severity.MEND,
        "gains a little from summer": Severity.MEND,
        "stays wet": Severity.STOP,
        "stays wet, closed outside": Severity.STOP,
        "stays wet from summer": Severity.STOP,
        "humidity not known": Severity.OPEN,
        "layers not known": Severity.OPEN,
        "vapour not known": Severity.OPEN,
    },
    _judge,
)
