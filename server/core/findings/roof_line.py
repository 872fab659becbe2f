"""The insulation moved from an attic's floor to its roof: what has to come with it."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.assembly import FramedLayer, SolidLayer
from server.core.findings.asbestos import LAST_YEAR_LIKELY
from server.core.findings.base import Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import fill_thickness, insulates, up_to_ventilation
from server.core.house import GROUND, INNER_KINDS, Kind
from server.core.moisture import saturation_temperature

BARE_ABOVE = 1.0  # W/(m2 K): a part known only by a U above has no insulation (our judgement)
AIR_TIGHT = frozenset({"air-tight", "membrane"})
LEAKY = ("felt", "kraft")  # papers that are lapped and stapled, no air layer
AIR_TIGHT_BOARDS = frozenset({"rigid-foam", "sprayed-foam"})


def attics_moved(case: Case) -> tuple[str, ...]:
    """The spaces under a roof that a strategy brings inside.

    Shapes: one case. Range: spaces that touch the ground are cellars, none of these.
    Raises: nothing. Source: definition.
    """
    cellars = {p.component.from_space for p in case.parts if p.component.to_space == GROUND}
    roofed = {p.component.from_space for p in case.parts if p.kind is Kind.ROOF}
    return tuple(name for name in case.moved_inside if name in roofed and name not in cellars)


def _judge(case: Case) -> Iterator[Found]:
    attics = attics_moved(case)
    if not attics:
        return
    yield from _bare_parts(case, attics)
    yield from _decks(case, attics)
    yield from _old_floors(case, attics)
    yield Found("close the vents", facts={"spaces": attics})
    plants = (case.house.heating, case.house.cooling)
    if any(plant is not None and plant.ducts_in in attics for plant in plants):
        yield Found("ducts inside", facts={"spaces": attics})
    flues = {None: "flues not looked at", True: "flues", False: "no flues"}
    yield Found(flues[case.seen.flues_through_attic])


def _bare_parts(case: Case, attics: tuple[str, ...]) -> Iterator[Found]:
    """Gables and roofs of an attic that is now inside, left without insulation."""
    for part in case.shell:
        if part.component.from_space in attics and not part.is_opening and _is_bare(case, part):
            yield Found("left bare", (part.name,))


def _is_bare(case: Case, part: Part) -> bool:
    if part.layers:
        return not any(map(insulates, part.layers))
    return float(case.after.components[part.index].u_value) > BARE_ABOVE


def _decks(case: Case, attics: tuple[str, ...]) -> Iterator[Found]:
    for part in case.shell:
        if part.kind is not Kind.ROOF or part.component.from_space not in attics:
            continue
        if not any(map(_is_air_tight, up_to_ventilation(part.layers))):
            yield Found("no air layer", (part.name,))


def _is_air_tight(layer: object) -> bool:
    if isinstance(layer, FramedLayer):
        return layer.fill is not None and layer.fill.group == "sprayed-foam"
    if not isinstance(layer, SolidLayer):
        return False
    if any(word in layer.material.name.lower() for word in LEAKY):
        return False
    return layer.material.group in AIR_TIGHT | AIR_TIGHT_BOARDS


def _old_floors(case: Case, attics: tuple[str, ...]) -> Iterator[Found]:
    """Fill that stays in a floor which now lies indoors."""
    for part in case.parts:
        if part.kind not in (Kind.CEILING, Kind.FLOOR, *INNER_KINDS) or part.is_shell:
            continue
        sides = (part.component.from_space, part.component.to_space)
        attic = next((side for side in sides if side in attics), None)
        if attic is None or not _has_fill(part):
            continue
        cold = _cold_space(case, attic)
        yield (
            Found(_old_fill(case), (part.name,))
            if cold is None
            else Found("old fill keeps it cold", (part.name,), {"space": attic}, cold)
        )


def _cold_space(case: Case, attic: str) -> Measured | None:
    """The attic's air in the coldest month against the dew point indoors; None where it is warm.

    It stands between the rooms below the kept floor and outdoors by their conductances; leaks are
    not in it.
    """
    indoors, outdoors = case.airs.indoors, case.airs.outdoors
    if indoors is None or outdoors is None:
        return None
    out = sum(_conductance(case, part) for part in case.shell if _bounds(part, attic))
    below = sum(
        _conductance(case, part)
        for part in case.parts
        if not part.is_shell and _bounds(part, attic)
    )
    month = min(range(12), key=lambda each: outdoors.temperature[each])
    inside, outside = indoors.temperature[month], outdoors.temperature[month]
    temperature = (below * inside + out * outside) / (below + out)
    dew_point = saturation_temperature(indoors.pressure[month])
    if temperature >= dew_point:
        return None
    return Measured(
        Quantity(round(temperature, 2), "temperature"),
        Quantity(round(dew_point, 2), "temperature"),
        at_least=True,
    )


def _bounds(part: Part, space: str) -> bool:
    return space in (part.component.from_space, part.component.to_space)


def _conductance(case: Case, part: Part) -> float:
    return float(part.component.area) * float(case.after.components[part.index].u_value)


def _old_fill(case: Case) -> str:
    """Nobody stirs old fill before it is known to be no vermiculite."""
    year = case.seen.year_built
    if case.seen.loose_fill == "no vermiculite" or (year is not None and year > LAST_YEAR_LIKELY):
        return "old fill kept"
    return "old fill not to be stirred"


def _has_fill(part: Part) -> bool:
    return any(isinstance(each, FramedLayer) and fill_thickness(each) for each in part.layers)


RULE = Rule(
    "insulation moved to the roof",
    {
        "left bare": Severity.STOP,
        "no air layer": Severity.MEND,
        "old fill kept": Severity.WATCH,
        "old fill keeps it cold": Severity.MEND,
        "old fill not to be stirred": Severity.WATCH,
        "close the vents": Severity.WATCH,
        "ducts inside": Severity.GOOD,
        "flues": Severity.MEND,
        "flues not looked at": Severity.OPEN,
        "no flues": Severity.GOOD,
    },
    _judge,
)
