"""To which side a component can dry, and whether it can at all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import Layer, SolidLayer
from server.core.findings.base import Fact, Found, Quantity, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.layers import (
    CLOSED,
    MASONRY,
    cavity_of,
    diffusion_through,
    insulates,
    up_to_ventilation,
)
from server.core.moisture import VAPOUR_PERMEABILITY

TIGHT = 10.0 * CLOSED  # m: a tenth of a perm
_LEAST = 1e-3  # m: a side with no layer at all is called this open


def _judge(case: Case) -> Iterator[Found]:
    for part in case.shell:
        if part.is_opening or not any(map(insulates, part.layers)):
            continue
        sides = _sides(part.layers)
        if sides is None:
            continue
        inside, outside = (diffusion_through(each) for each in sides)
        if inside is None or outside is None:
            yield Found("vapour not known", (part.name,))
            continue
        inside += case.paint(part)
        outcome = _outcome(inside, outside)
        facts: dict[str, Fact] = {}
        if outcome != "dries both ways":
            facts = {"inward": _permeance(inside), "outward": _permeance(outside)}
        yield Found(outcome, (part.name,), facts)


def _sides(layers: Sequence[Layer]) -> tuple[Sequence[Layer], Sequence[Layer]] | None:
    """What lies inside and outside of where water would do harm: the bays, or the masonry."""
    passed = up_to_ventilation(layers)
    cavity = cavity_of(passed)
    if cavity is not None:
        return cavity.inside, cavity.outside
    for index, layer in enumerate(passed):
        if isinstance(layer, SolidLayer) and layer.material.group in MASONRY:
            return passed[:index], passed[index + 1 :]
    wood = [i for i, each in enumerate(passed) if _is_wood(each)]
    return None if not wood else (passed[: wood[0]], passed[wood[-1] + 1 :])


def _is_wood(layer: Layer) -> bool:
    return isinstance(layer, SolidLayer) and layer.material.group in ("structure", "sheathing")


def _permeance(diffusion: float) -> Quantity:
    passed = VAPOUR_PERMEABILITY / max(diffusion, _LEAST)
    return Quantity(float(f"{passed:.3g}"), "permeance")


def _outcome(inside: float, outside: float) -> str:
    if inside > CLOSED and outside > CLOSED:
        return "closed on both sides" if max(inside, outside) >= TIGHT else "slow on both sides"
    if inside > CLOSED:
        return "dries outward"
    return "dries inward" if outside > CLOSED else "dries both ways"


RULE = Rule(
    "closed on both sides",
    {
        "closed on both sides": Severity.MEND,
        "slow on both sides": Severity.WATCH,
        "dries outward": Severity.GOOD,
        "dries inward": Severity.GOOD,
        "dries both ways": Severity.GOOD,
        "vapour not known": Severity.OPEN,
    },
    _judge,
)
