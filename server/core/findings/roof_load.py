"""Weight that a strategy lays on old rafters."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import FramedLayer, Layer, SolidLayer
from server.core.findings.base import Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import fill_thickness
from server.core.house import Kind

POUND_PER_SQUARE_FOOT = 4.882428  # kg/m2
# dead loads that rafter tables reckon with, IRC R802.4 (memory)
LEAST_IN_TABLES = 10.0 * POUND_PER_SQUARE_FOOT
MOST_IN_TABLES = 20.0 * POUND_PER_SQUARE_FOOT
LITTLE = 2.5 * POUND_PER_SQUARE_FOOT  # another layer of shingles weighs as much (common practice)


def _judge(case: Case) -> Iterator[Found]:
    for part in case.changed:
        if part.kind is not Kind.ROOF:
            continue
        before, after = mass_of(part.layers_before), mass_of(part.layers)
        if before is None or after is None:
            yield Found("weight not known", (part.name,))
            continue
        yield _judged(part, before, after)


def _judged(part: Part, before: float, after: float) -> Found:
    """What is added counts first, then what all of it weighs, kg/m2."""
    if after - before <= LITTLE:
        return Found("as before", (part.name,), measured=_measured(after - before, LITTLE))
    if after > MOST_IN_TABLES:
        return Found("heavy", (part.name,), measured=_measured(after, MOST_IN_TABLES))
    outcome = "heavier, still light" if after <= LEAST_IN_TABLES else "heavier"
    return Found(outcome, (part.name,), measured=_measured(after, LEAST_IN_TABLES))


def _measured(figure: float, limit: float) -> Measured:
    kind = "mass_per_area"
    return Measured(Quantity(round(figure, 2), kind), Quantity(limit, kind))


def mass_of(layers: Sequence[Layer]) -> float | None:
    """Of layers that hang on framing, kg/m2, the framing itself left out; None where unknown.

    Shapes: any layers. Range: layers of known density. Raises: nothing.
    Source: definition, density times thickness.
    """
    total = 0.0
    for layer in layers:
        if isinstance(layer, SolidLayer):
            material, thickness = layer.material, float(layer.thickness)
        elif isinstance(layer, FramedLayer) and layer.fill is not None:
            material = layer.fill
            thickness = fill_thickness(layer) * (1.0 - float(layer.fraction))
        else:
            continue
        if material.density is None:
            return None
        total += float(material.density) * thickness
    return total


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
