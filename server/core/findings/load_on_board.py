"""What presses on insulation under a slab, and whether it carries that for decades."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import Layer, SolidLayer
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import is_insulation
from server.core.house import Kind

GRAVITY = 9.80665  # m/s2
PSF = 47.88025898  # Pa
LIVE_LOAD = 40.0 * PSF  # of rooms, IRC 2021 Table R301.5 (memory)
SUSTAINED = 1.0 / 3.0  # of the strength at 10 % deformation, against creep (common practice)
PARTITION = 64.0 * PSF * 0.3048  # N/m: 8 ft of a stud partition of 8 lb/ft2 (common practice)
PLATE = 0.0889  # m: a 2x4 sole plate
# the most that a footing may press with on the weakest soil, whose allowed bearing is the least of
# IRC 2021 Table R401.4.1 (memory)
FOOTING = 1500.0 * PSF
_UNDER = (Kind.SLAB, Kind.BASEMENT_FLOOR)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.parts:
        if part.kind in _UNDER:
            yield from _judged(part)


def _judged(part: Part) -> Iterator[Found]:
    for index, layer in enumerate(part.layers):
        above = part.layers[:index]
        if not isinstance(layer, SolidLayer) or not is_insulation(layer.material):
            continue
        slab = _slab_over(above)
        if slab is None:
            continue
        strength = layer.material.compressive_strength
        if slab.material.density is None:
            yield Found("weight not known", (part.name,))
            continue
        if strength is None:
            yield Found("strength not known", (part.name,), {"board": layer.material.name})
            continue
        allowed = float(strength) * SUSTAINED
        plain = _weight(above) + LIVE_LOAD
        pressed = plain + PARTITION / (PLATE + 2.0 * float(slab.thickness))
        facts: dict[str, Fact] = {
            "board": layer.material.name,
            "slab": Quantity(round(plain, 0), "pressure"),
            "footing": Quantity(FOOTING, "pressure"),
        }
        measured = Measured(
            Quantity(round(pressed, 0), "pressure"), Quantity(round(allowed, 0), "pressure")
        )
        outcome = "carries" if pressed <= allowed else "too soft"
        if outcome == "carries" and allowed >= FOOTING:
            outcome = "carries a footing too"
        yield Found(outcome, (part.name,), facts, measured)


def _slab_over(above: Sequence[Layer]) -> SolidLayer | None:
    """The concrete over a board; a board on top of the slab carries no slab."""
    concrete = [
        layer
        for layer in above
        if isinstance(layer, SolidLayer) and layer.material.group == "concrete"
    ]
    return concrete[-1] if concrete else None


def _weight(layers: Sequence[Layer]) -> float:
    """Of layers, Pa; what has no density counts nothing."""
    masses = (
        float(layer.material.density or 0.0) * float(layer.thickness)
        for layer in layers
        if isinstance(layer, SolidLayer)
    )
    return GRAVITY * sum(masses)


RULE = Rule(
    "load on board",
    {
        "carries": Severity.GOOD,
        "carries a footing too": Severity.GOOD,
        "too soft": Severity.STOP,
        "strength not known": Severity.OPEN,
        "weight not known": Severity.OPEN,
    },
    _judge,
)
