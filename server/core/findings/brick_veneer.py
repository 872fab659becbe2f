"""A brick veneer, whose gap and weeps have to stay clear."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import AirLayer, Layer, SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.layers import MASONRY
from server.core.house import Kind

HEAVY, THICK = 1200.0, 0.05  # kg/m3 and m: cladding that is heavier and thicker is a veneer
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
    """Where a veneer stands: outermost, with something that is no masonry behind it.

    Shapes: any layers. Range: None where there is none. Raises: nothing. Source: definition.
    """
    if len(layers) < 2 or not is_veneer(layers[-1]) or is_veneer(layers[-2]):
        return None
    return len(layers) - 1


def _judge(case: Case) -> Iterator[Found]:
    for part in case.parts:
        place = veneer_at(part.layers_before)
        if part.kind is not Kind.WALL or place is None or not part.is_shell:
            continue
        gap = part.layers_before[place - 1]
        if isinstance(gap, AirLayer) and part.is_changed and gap not in part.layers:
            yield Found("gap filled", (part.name,))
            continue
        answers = {None: "not looked at", "open": "open", "blocked or none": "blocked"}
        if part.is_changed or case.strategy is None:
            yield Found(answers[case.seen.veneer_weeps], (part.name,))


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
