"""Brick or stone that carries the house, insulated from inside or covered with board outside.

Concrete and block neither spall as brick does nor take beam ends: insulated inside, a film is
all that is said of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from server.core.assembly import Layer, SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.brick_veneer import covered_veneer_at
from server.core.findings.case import Case, Part
from server.core.findings.layers import (
    MASONRY,
    diffusion_thickness,
    insulates,
    is_foam,
    materials_of,
)
from server.core.findings.masonry_outside import is_veneered
from server.core.findings.retarder_by_zone import CLASS_I
from server.core.house import Kind

FIRST_FREEZING_ZONE = 4  # of the energy code: brick that stays cold and wet freezes (our judgement)
_CONCRETE = re.compile(r"\b(concrete|cement|block|cmu)", re.IGNORECASE)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.changed:
        place = _masonry_at(part)
        if part.kind is not Kind.WALL or place is None or is_veneered(part):
            continue
        is_concrete = _is_concrete(part.layers[place])
        added = {id(layer) for layer in part.added if insulates(layer)}
        if not is_concrete and any(id(layer) in added for layer in part.layers[:place]):
            yield from _inside(case, part)
        if _has_film_inside(part, place):
            yield Found("film inside", (part.name,))
        is_covered = covered_veneer_at(part.layers) is not None  # of which its own rule tells
        if not is_covered and any(id(layer) in added for layer in part.layers[place + 1 :]):
            outcome = "board outside, concrete" if is_concrete else "board outside"
            yield Found(outcome, (part.name,))


def _masonry_at(part: Part) -> int | None:
    """The outermost masonry that stays."""
    for index in reversed(range(len(part.layers_before))):
        layer = part.layers_before[index]
        if isinstance(layer, SolidLayer) and layer.material.group in MASONRY:
            return next((i for i, each in enumerate(part.layers) if each is layer), None)
    return None


def _is_concrete(layer: Layer) -> bool:
    """Whether it is concrete or block, and neither brick nor stone."""
    if not isinstance(layer, SolidLayer):
        return False
    material = layer.material
    return material.group == "concrete" or _CONCRETE.search(material.name) is not None


def _has_film_inside(part: Part, place: int) -> bool:
    """Whether a layer that lets no vapour through lies inside of fibre before the masonry."""
    inside = part.layers[:place]
    films = (i for i, each in enumerate(inside) if (diffusion_thickness(each) or 0.0) >= CLASS_I)
    first = next(films, place)
    return any(insulates(each) and not _is_foam(each) for each in inside[first + 1 :])


def _is_foam(layer: Layer) -> bool:
    *_framing, insulation = materials_of([layer])
    return is_foam(insulation)


def _inside(case: Case, part: Part) -> Iterator[Found]:
    beams = {None: "beams not looked at", True: "beams", False: "no beams"}
    yield Found(beams[case.seen.beams_in_masonry], (part.name,))
    freezes = case.zone is None or case.zone.number >= FIRST_FREEZING_ZONE
    yield Found("freezes" if freezes else "seldom freezes", (part.name,))


RULE = Rule(
    "brick insulated",
    {
        "beams": Severity.MEND,
        "beams not looked at": Severity.OPEN,
        "no beams": Severity.GOOD,
        "freezes": Severity.MEND,
        "seldom freezes": Severity.WATCH,
        "film inside": Severity.MEND,
        "board outside": Severity.WATCH,
        "board outside, concrete": Severity.WATCH,
    },
    _judge,
)
