"""Condensation inside an assembly, month by month."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import CLOSED, diffusion_through, materials_of, up_to_ventilation
from server.core.findings.vapour_picture import VapourPicture
from server.core.findings.vapour_section import PAINTED, VapourSection, section_key, vapour_section
from server.core.moisture import Course, InterstitialYear, course_of_month, interstitial_year

MOST_WATER = 0.5  # kg/m2 at a time beside what takes up none, DIN 4108-3 (memory)
MOST_ANYWHERE = 1.0  # kg/m2 at a time, DIN 4108-3 (memory)
A_LITTLE = 0.05  # kg/m2 a year: it would take decades to do harm (our judgement)


LEFT_OVER = ("stays wet", "gains a little")


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
    outcome, water, where, remaining, picture = case.shared(key, lambda: _year(part, section))
    facts: dict[str, Fact] = {"water": Quantity(round(water, 4), "mass_per_area"), "where": where}
    if outcome == "dry":
        facts = {}
    if outcome in LEFT_OVER:
        facts["remaining"] = Quantity(round(remaining, 4), "mass_per_area")
    return Found(outcome, (part.name,), facts, _measured(outcome, water, remaining), picture)


def _measured(outcome: str, water: float, remaining: float) -> Measured | None:
    if outcome == "dry":
        return None
    if outcome in LEFT_OVER:
        return Measured(
            Quantity(round(remaining, 4), "mass_per_area"), Quantity(0.0, "mass_per_area")
        )
    return Measured(
        Quantity(round(water, 4), "mass_per_area"), Quantity(MOST_WATER, "mass_per_area")
    )


def _year(part: Part, section: VapourSection) -> tuple[str, float, str, float, VapourPicture]:
    year = interstitial_year(
        section.layers,
        section.climate,
        inside_film=section.inside_film,
        outside_film=section.outside_film,
    )
    outcome: str = year.verdict
    if outcome == "dries" and year.peak > MOST_WATER:
        outcome = "dries, too much"
        outside = diffusion_through(up_to_ventilation(part.layers)[_outermost_wet(section, year) :])
        if year.peak > MOST_ANYWHERE and (outside or 0.0) > CLOSED:
            outcome = "soaks behind a closed skin"
    if outcome == "stays wet" and year.remaining <= A_LITTLE:
        outcome = "gains a little"
    return (
        outcome,
        year.peak,
        _where(part, section, year),
        year.remaining,
        _picture(part, section, year),
    )


def _outermost_wet(section: VapourSection, year: InterstitialYear) -> int:
    """The number of the layer outside of the outermost plane that gets wet."""
    place = max(plane.layer for plane in year.planes)
    return section.numbers[min(place, len(section.numbers) - 1)]


def _where(part: Part, section: VapourSection, year: InterstitialYear) -> str:
    """The layer behind which most water gathers, seen from indoors."""
    if not year.planes:
        return ""
    most = max(range(len(year.planes)), key=lambda plane: max(row[plane] for row in year.water))
    place = min(year.planes[most].layer, len(section.numbers) - 1)
    return _layer_name(part, section.numbers[place])


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
        "soaks behind a closed skin": Severity.STOP,
        "gains a little": Severity.MEND,
        "stays wet": Severity.STOP,
        "humidity not known": Severity.OPEN,
        "layers not known": Severity.OPEN,
        "vapour not known": Severity.OPEN,
    },
    _judge,
)
