"""Weight that a strategy lays on old rafters."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import FramedLayer, Layer, ResistanceLayer, SolidLayer
from server.core.findings.base import Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import fill_thickness
from server.core.house import Kind
from server.core.materials import Material

POUND_PER_SQUARE_FOOT = 4.882428  # kg/m2
# dead loads that rafter tables reckon with, IRC R802.4 (memory)
LEAST_IN_TABLES = 10.0 * POUND_PER_SQUARE_FOOT
MOST_IN_TABLES = 20.0 * POUND_PER_SQUARE_FOOT
RAFTERS = 2.0 * POUND_PER_SQUARE_FOOT  # where they are not among the layers (common practice)
LITTLE = 2.5 * POUND_PER_SQUARE_FOOT  # another layer of shingles weighs as much (common practice)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.changed:
        if part.kind is not Kind.ROOF:
            continue
        gained, after = _gained(part), _whole(part.layers)
        if gained is None:
            yield Found("weight not known", (part.name,))
        else:
            yield _judged(part, gained, after)


def _gained(part: Part) -> float | None:
    """What a strategy adds less what it takes off, kg/m2; what stays may be unknown."""
    before, after = _whole(part.layers_before), _whole(part.layers)
    if before is not None and after is not None:
        return after - before
    stays = {id(layer) for layer in part.layers} & {id(layer) for layer in part.layers_before}
    new, old = (
        mass_of([layer for layer in layers if id(layer) not in stays]) if layers else None
        for layers in (part.layers, part.layers_before)
    )
    return None if new is None or old is None else new - old


def _whole(layers: Sequence[Layer]) -> float | None:
    """Of all layers and the rafters, kg/m2; None where unknown."""
    mass = mass_of(layers) if layers else None
    if mass is None or any(isinstance(layer, FramedLayer) for layer in layers):
        return mass
    return mass + RAFTERS


def _judged(part: Part, gained: float, after: float | None) -> Found:
    """What is added counts first, then what all of it weighs, kg/m2."""
    if gained <= LITTLE:
        return Found("as before", (part.name,), measured=_measured(gained, LITTLE))
    if after is None:
        return Found("weight not known", (part.name,))
    if after > MOST_IN_TABLES:
        return Found("heavy", (part.name,), measured=_measured(after, MOST_IN_TABLES))
    outcome = "heavier, still light" if after <= LEAST_IN_TABLES else "heavier"
    return Found(outcome, (part.name,), measured=_measured(after, LEAST_IN_TABLES))


def _measured(figure: float, limit: float) -> Measured:
    kind = "mass_per_area"
    return Measured(Quantity(round(figure, 2), kind), Quantity(limit, kind))


def mass_of(layers: Sequence[Layer]) -> float | None:
    """Of layers and the framing that carries them, kg/m2; None where unknown.

    Shapes: any layers. Range: layers of known density; air weighs nothing. Raises: nothing.
    Source: definition, density times thickness.
    """
    total = 0.0
    for layer in layers:
        if isinstance(layer, ResistanceLayer):
            return None
        for material, thickness in _pieces(layer):
            if material.density is None:
                return None
            total += float(material.density) * thickness
    return total


def _pieces(layer: Layer) -> Iterator[tuple[Material, float]]:
    """The materials of a layer, each as thick as if it were spread over the whole area, m."""
    if isinstance(layer, SolidLayer):
        yield layer.material, float(layer.thickness)
    if isinstance(layer, FramedLayer):
        share = float(layer.fraction)
        yield layer.framing, float(layer.depth) * share
        if layer.fill is not None:
            yield layer.fill, fill_thickness(layer) * (1.0 - share)


RULE = Rule(
    "load on rafters",
    {
        "as before": Severity.GOOD,
        "heavier, still light": Severity.WATCH,
        "heavier": Severity.MEND,
        "heavy": Severity.MEND,
        "weight not known": Severity.OPEN,
    },
    _judge,
)
