"""A brick veneer, whose gap and weeps have to stay clear."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import AirLayer, FramedLayer, Layer, SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import MASONRY
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


def _judge(case: Case) -> Iterator[Found]:
    for part in case.parts:
        place = veneer_at(part.layers_before)
        if part.kind is not Kind.WALL or place is None or not part.is_shell:
            continue
        if part.is_changed and part.layers and not any(map(is_veneer, part.layers)):
            continue  # it comes off
        if isinstance(part.layers_before[place - 1], AirLayer) and _loses_gap(part):
            yield Found("gap filled", (part.name,))
            continue
        answers = {None: "not looked at", "open": "open", "blocked or none": "blocked"}
        if part.is_changed or case.strategy is None:
            yield Found(answers[case.seen.veneer_weeps], (part.name,))


def _loses_gap(part: Part) -> bool:
    """Whether something else than air stands right behind the veneer after the work."""
    places = [index for index, layer in enumerate(part.layers) if is_veneer(layer)]
    return bool(places) and not isinstance(part.layers[places[-1] - 1], AirLayer)


RULE = Rule(
    "brick veneer",
    {
        "gap filled": Severity.STOP,
        "blocked": Severity.MEND,
        "open": Severity.GOOD,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
