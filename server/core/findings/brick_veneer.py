"""A brick veneer, whose gap and weeps have to stay clear, and which no insulation should cover."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import AirLayer, FramedLayer, Layer, SolidLayer, Ventilation
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import MASONRY, insulates
from server.core.house import Kind

HEAVY, THICK = 1200.0, 0.05  # kg/m3 and m: cladding that is heavier and thicker is a veneer
THICKEST = 5.0 * 0.0254  # m: one wythe; thicker brick stands by itself, IRC R703.8 (memory)
_CARRIES = MASONRY | {"sheathing", "structure"}
_GROUPS = MASONRY | {"cladding"}


def is_veneer(layer: Layer) -> bool:
    """Whether a layer is a masonry skin, by its figures.

    Shapes: one layer. Range: any. Raises: nothing. Source: our judgement.
    """
    if not isinstance(layer, SolidLayer) or layer.material.group not in _GROUPS:
        return False
    density = layer.material.density
    return density is not None and float(density) >= HEAVY and float(layer.thickness) >= THICK


def veneer_at(layers: Sequence[Layer]) -> int | None:
    """Where a veneer stands: one wythe, outermost, before a wall that carries the house without it.

    Brick laid onto other brick is part of that. Shapes: any layers. Range: None where there is
    none. Raises: nothing. Source: definition.
    """
    if len(layers) < 2 or not is_veneer(layers[-1]) or is_veneer(layers[-2]):
        return None
    veneer, behind = layers[-1], layers[:-1]
    assert isinstance(veneer, SolidLayer)
    if float(veneer.thickness) > THICKEST or not any(map(_carries, behind)):
        return None
    return len(behind)


def _carries(layer: Layer) -> bool:
    if isinstance(layer, FramedLayer):
        return True
    return isinstance(layer, SolidLayer) and layer.material.group in _CARRIES


def covered_veneer_at(layers: Sequence[Layer]) -> int | None:
    """Where a veneer stands that insulation covers.

    Shapes: any layers. Range: None where there is none; brick that stands outermost is not covered.
    Raises: nothing. Source: definition.
    """
    places = [index for index, layer in enumerate(layers) if is_veneer(layer)]
    if not places or veneer_at(layers[: places[-1] + 1]) is None:
        return None
    return places[-1] if any(map(insulates, layers[places[-1] + 1 :])) else None


def washed_from(case: Case, part: Part) -> int | None:
    """From which layer on outdoor air washes behind insulation that covers a veneer.

    Shapes: one part. Range: None where no veneer is covered, or still air lies behind it.
    Raises: nothing. Source: our judgement.
    """
    veneer = covered_veneer_at(part.layers)
    if veneer is None or _is_closed(case, part, veneer):
        return None
    return veneer - isinstance(part.layers[veneer - 1], AirLayer)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.parts:
        if part.kind is Kind.WALL and part.is_shell:
            outcome = _outcome(case, part)
            if outcome is not None and (part.is_changed or case.strategy is None):
                yield Found(outcome, (part.name,))


def _outcome(case: Case, part: Part) -> str | None:
    place = veneer_at(part.layers_before)
    if place is not None and _had_gap(part, place) and _loses_gap(part):
        return "gap filled"
    covered = covered_veneer_at(part.layers)
    if covered is not None:
        return "covered, gap closed" if _is_closed(case, part, covered) else "covered"
    if place is None or (part.layers and not any(map(is_veneer, part.layers))):
        return None  # there is none, or it comes off
    return {None: "not looked at", "open": "open", "blocked or none": "blocked"}[
        case.seen.veneer_weeps
    ]


def _is_closed(case: Case, part: Part, veneer: int) -> bool:
    """Whether still air is described behind the veneer, and nobody saw it open."""
    gap = part.layers[veneer - 1]
    if not isinstance(gap, AirLayer) or gap.ventilation is not Ventilation.UNVENTILATED:
        return False
    is_as_found = any(layer is gap for layer in part.layers_before)
    return not (is_as_found and case.seen.veneer_weeps == "open")


def _had_gap(part: Part, veneer: int) -> bool:
    return isinstance(part.layers_before[veneer - 1], AirLayer)


def _loses_gap(part: Part) -> bool:
    """Whether something else than air stands right behind the veneer after the work."""
    places = [index for index, layer in enumerate(part.layers) if is_veneer(layer)]
    return bool(places) and not isinstance(part.layers[places[-1] - 1], AirLayer)


RULE = Rule(
    "brick veneer",
    {
        "gap filled": Severity.STOP,
        "covered": Severity.MEND,
        "covered, gap closed": Severity.WATCH,
        "blocked": Severity.MEND,
        "open": Severity.GOOD,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
