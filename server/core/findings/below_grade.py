"""Insulation inside of walls and floors in the ground: what the air of the rooms meets behind it.

Concrete behind batts is nearly as cold as the ground, and water from the soil comes on top. The
face that is judged is the first solid one outside of the outermost insulation that lets air or
vapour through; the air there is taken to be as moist as the rooms'. Wet answers of the survey are
not asked here: "water first" tells of them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from server.core.assembly import AirLayer, FramedLayer, Layer, ResistanceLayer, SolidLayer
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.indoor_air import Air
from server.core.findings.layers import (
    CLOSED,
    MASONRY,
    diffusion_thickness,
    insulates,
    is_foam,
    materials_of,
    resistance_of,
)
from server.core.findings.retarder_by_zone import CLASS_I
from server.core.findings.roof_line import BARE_ABOVE
from server.core.findings.sheathing_in_winter import STEP, USUAL_BOARD
from server.core.ground_wave import LAG_MONTHS
from server.core.house import GROUND
from server.core.moisture import MOULD_HUMIDITY, saturation_pressure, saturation_temperature
from server.core.temperature_line import Route, route_steps
from server.core.transmittance import bare_resistance

# m: s_d from which foam keeps vapour off the masonry, as much as DIN 4108-3 asks of a lining inside
# that needs no proof (memory). Half an inch of expanded polystyrene has it, open-cell foam between
# studs has not.
LEAST_OF_FOAM = 0.5
MAY_INSULATE = 0.35  # m2 K/W: a layer known by more than R-2 may be insulation (our judgement)


@dataclass(frozen=True, slots=True)
class Lining:
    """Insulation that lets air or vapour through, inside of a part in the ground.

    fills: indices of such layers. face: index of the first solid layer outside of the outermost of
    them. foams: what keeps air and vapour off the masonry outside of them.
    """

    fills: tuple[int, ...]
    face: int
    foams: tuple[Layer, ...]


@dataclass(frozen=True, slots=True)
class Face:
    """Resistances inside and outside of it, films and soil included, m2 K/W; the ground, deg C."""

    inside: float
    outside: float
    ground: tuple[float, ...]

    def temperature(self, air: Air, month: int) -> float:
        """Of the face in a month, from the straight fall between the room and the ground.

        Shapes: twelve months; deg C. Range: any. Raises: nothing.
        Source: Fourier's law in one dimension.
        """
        inside, ground = air.temperature[month], self.ground[month]
        return inside - (inside - ground) * self.inside / (self.inside + self.outside)

    def humidity(self, air: Air, month: int) -> float:
        """Relative humidity of the rooms' air at the face in a month, 1 where it condenses.

        Shapes: twelve months. Range: 0 to 1. Raises: nothing.
        Source: ISO 13788:2012 5.2 (memory).
        """
        return min(1.0, air.pressure[month] / saturation_pressure(self.temperature(air, month)))

    def more_needed(self, air: Air) -> float | None:
        """R to add outside of it so that no month is above 80 %; None where none is enough.

        R_out = R_in (T_80 - T_g)/(T_in - T_80).
        Shapes: twelve months; m2 K/W. Range: the soil's part is left as it is. Raises: nothing.
        Source: Fourier's law in one dimension; ISO 13788:2012 5.2 (memory).
        """
        needed = 0.0
        for inside, pressure, ground in zip(
            air.temperature, air.pressure, self.ground, strict=True
        ):
            least = saturation_temperature(pressure / MOULD_HUMIDITY)
            if least >= inside:
                return None
            needed = max(needed, self.inside * (least - ground) / (inside - least))
        return max(0.0, needed - self.outside)


def ground_of(case: Case, part: Part) -> tuple[float, ...]:
    """Temperature of the ground as one part feels it, month by month.

    T_g = T_mean + H_pe/(U A) times outdoors' swing, a month late: the part's own wave, where the
    balance of the house takes one for all.
    Shapes: a house without draws; deg C. Range: a layered part in the ground; a mean over all of
    it, where the top of a wall and the edge of a slab are colder in winter. Raises: nothing.
    Source: ISO 13370:2007 Annex H (memory).
    """
    wave = case.after.working.ground
    steady = float(case.after.components[part.index].conductance)
    share = float(case.after.working.periodic[part.index]) / steady if steady > 0.0 else 0.0
    late = wave.harmonic.late_by(LAG_MONTHS)
    return tuple(float(wave.mean) + share * float(each) for each in late)


def face_of(case: Case, part: Part, index: int) -> Face:
    """The inner face of a layer of a part in the ground, along the fill.

    The soil is what U of the part holds beside its layers and films.
    Shapes: a house without draws. Range: a layered part in the ground. Raises: nothing.
    Source: ISO 13370:2007 for U; one dimension is our simplification.
    """
    films = case.films(part)
    steps = route_steps(part.layers, Route.FILL, part.component.heat_flow, *films)
    whole = sum(float(step.resistance) for step in steps)
    inner = [step for step in steps if step.layer is not None and step.layer < index]
    inside = films[0] + sum(float(step.resistance) for step in inner)
    layers = float(bare_resistance(case.house, part.component))
    soil = float(case.after.components[part.index].resistance) - layers - sum(films)
    return Face(inside, whole - inside + max(0.0, soil), ground_of(case, part))


def _judge(case: Case) -> Iterator[Found]:
    for part in case.parts:
        if part.is_shell and part.component.to_space == GROUND:
            yield from _judge_part(case, part)


def _judge_part(case: Case, part: Part) -> Iterator[Found]:
    wall = _wall_at(part.layers)
    if _is_unknown(case, part, wall):
        yield Found("layers not known", (part.name,))
    elif any(map(insulates, part.layers[:wall])):
        tight = [_is_tight(layer) for layer in part.layers[:wall] if insulates(layer)]
        if None in tight:
            yield Found("vapour not known", (part.name,))
        elif all(tight):
            yield Found("foam", (part.name,))
        else:
            yield _behind(case, part, _lining(part.layers, wall))


def _wall_at(layers: Sequence[Layer]) -> int:
    """The outermost masonry; else the outermost layer, where that is no insulation."""
    for index in reversed(range(len(layers))):
        if any(material.group in MASONRY for material in materials_of([layers[index]])):
            return index
    return len(layers) - 1 if layers and not insulates(layers[-1]) else len(layers)


def _is_unknown(case: Case, part: Part, wall: int) -> bool:
    """Whether it may be insulated inside, and nobody knows with what."""
    if not part.layers:
        return float(case.after.components[part.index].u_value) <= BARE_ABOVE
    return any(
        isinstance(layer, ResistanceLayer) and float(layer.resistance) >= MAY_INSULATE
        for layer in part.layers[: wall + 1]
    )


def _is_tight(layer: Layer) -> bool | None:
    """Whether insulation lets neither air through nor vapour to speak of; None where unknown."""
    diffusion = diffusion_thickness(layer)
    foam = any(map(is_foam, materials_of([layer])))
    if diffusion is None:
        return None
    return diffusion >= (LEAST_OF_FOAM if foam else CLOSED)


def _lining(layers: Sequence[Layer], wall: int) -> Lining:
    insulated = [index for index in range(wall) if insulates(layers[index])]
    fills = tuple(index for index in insulated if not _is_tight(layers[index]))
    beyond = range(fills[-1] + 1, len(layers))
    solid = (index for index in beyond if not _is_air(layers[index]))
    foams = tuple(layers[index] for index in insulated if index > fills[-1])
    return Lining(fills, next(solid, len(layers)), foams)


def _is_air(layer: Layer) -> bool:
    """Whether it is a gap or a bay with nothing in it."""
    return isinstance(layer, AirLayer) or (isinstance(layer, FramedLayer) and layer.fill is None)


def _behind(case: Case, part: Part, lining: Lining) -> Found:
    """What is said of a face behind insulation that lets air or vapour through."""
    within = part.layers[: lining.fills[-1]]
    films = [layer for layer in within if (diffusion_thickness(layer) or 0.0) >= CLASS_I]
    facts: dict[str, Fact] = {"fill": _names(part.layers[index] for index in lining.fills)}
    if films:
        facts["film"] = _names(films)
    air = case.airs.indoors
    if air is not None:
        face = face_of(case, part, lining.face)
        humidity = [face.humidity(air, month) for month in range(12)]
        worst = humidity.index(max(humidity))
        figure = Quantity(round(humidity[worst], 2), "share")  # judged as it is shown
        measured = Measured(figure, Quantity(MOULD_HUMIDITY, "share"))
        if figure.value > MOULD_HUMIDITY:
            facts |= _remedy(lining, face.more_needed(air), worst)
            facts["why"] = ("too little fresh air",) if case.airs.lacks_air else ()
            return Found(_humid(lining, facts), (part.name,), facts, measured)
    if films:
        return Found("film, foam outside" if lining.foams else "film", (part.name,), facts)
    if air is None:
        return Found("humidity not known", (part.name,))
    if any(diffusion_thickness(layer) is None for layer in within):
        return Found("vapour not known", (part.name,))
    return Found("warm" if lining.foams else "warm, no foam", (part.name,), facts, measured)


def _names(layers: Iterable[Layer]) -> tuple[str, ...]:
    """What some layers are made of, of framed ones what lies between."""
    made_of = ([material.name for material in materials_of([each])] for each in layers)
    return tuple(dict.fromkeys(names[-1] for names in made_of if names))


def _remedy(lining: Lining, more: float | None, month: int) -> dict[str, Fact]:
    """The month, and foam board in all, as R and as board of the sort that is there."""
    facts: dict[str, Fact] = {"month": Quantity(month, "month")}
    if more is None:
        return facts
    boards = [each for each in lining.foams if isinstance(each, SolidLayer)]
    has = sum(map(resistance_of, boards))
    conductivity = float(boards[-1].material.conductivity) if boards else USUAL_BOARD
    board = math.ceil((has + more) * conductivity / STEP - 1e-9) * STEP
    return facts | {
        "needed": Quantity(board / conductivity, "resistance"),
        "board": Quantity(board, "thickness"),
    }


def _humid(lining: Lining, facts: dict[str, Fact]) -> str:
    if "board" not in facts:
        return "humid rooms"
    if lining.foams:
        return "humid inside of foam"
    return "humid behind a film" if "film" in facts else "humid"


RULE = Rule(
    "below grade",
    {
        "foam": Severity.GOOD,
        "warm": Severity.GOOD,
        "warm, no foam": Severity.WATCH,
        "humid": Severity.MEND,
        "humid behind a film": Severity.MEND,
        "humid inside of foam": Severity.MEND,
        "humid rooms": Severity.MEND,
        "film": Severity.MEND,
        "film, foam outside": Severity.WATCH,
        "layers not known": Severity.OPEN,
        "vapour not known": Severity.OPEN,
        "humidity not known": Severity.OPEN,
    },
    _judge,
)
