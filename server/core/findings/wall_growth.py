"""How far a wall grows, outward and into the room, and what stands in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import FramedLayer, Layer, ResistanceLayer
from server.core.findings.base import Fact, Found, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.ground_floors import CRAWLSPACE
from server.core.findings.layers import is_solid_masonry
from server.core.house import Kind

GROWING = (Kind.WALL, Kind.BASEMENT_WALL, Kind.ROOF)
LEAST = 0.0127  # m: less than 1/2 in is taken up by trim


def _judge(case: Case) -> Iterator[Found]:
    for part in case.changed:
        if part.kind not in GROWING or not part.layers_before:
            continue
        outward, inward = growth(part)
        if part.faces_outdoors and outward >= LEAST:
            outcome = "roof" if part.kind is Kind.ROOF else "outward"
            yield Found(outcome, (part.name,), _facts(outward))
        if inward >= LEAST and not CRAWLSPACE.search(part.component.from_space):
            yield Found("inward", (part.name,), _facts(inward))


def _facts(grown: float) -> dict[str, Fact]:
    return {"growth": Quantity(round(grown, 5), "thickness")}


def growth(part: Part) -> tuple[float, float]:
    """How much thicker a part gets outside and inside of the layers that stay, m.

    Shapes: one component. Range: below zero where more comes off than goes on. Raises: nothing.
    Source: definition; layers of which only R is known count nothing.
    """
    before, after = part.layers_before, part.layers
    stay = [index for index, layer in enumerate(before) if _is_kept(layer, after)]
    if not stay:
        return thickness_of(after) - thickness_of(before), 0.0
    first, last = before[stay[0]], before[stay[-1]]
    inner, outer = _place(first, after), _place(last, after)
    outward = thickness_of(after[outer + 1 :]) - thickness_of(before[stay[-1] + 1 :])
    added: Sequence[Layer] = after[:inner]
    if not is_solid_masonry(before) and not any(isinstance(x, FramedLayer) for x in before):
        # studs and rafters stood there all along; a survey leaves them out while they are bare
        added = [layer for layer in added if not isinstance(layer, FramedLayer)]
    return outward, thickness_of(added) - thickness_of(before[: stay[0]])


def _is_kept(layer: Layer, after: Sequence[Layer]) -> bool:
    return any(_is_same(layer, each) for each in after)


def _place(layer: Layer, after: Sequence[Layer]) -> int:
    return next(index for index, each in enumerate(after) if _is_same(layer, each))


def _is_same(first: Layer, second: Layer) -> bool:
    """The very layer, or the same bay with another fill."""
    if first is second:
        return True
    if not isinstance(first, FramedLayer) or not isinstance(second, FramedLayer):
        return False
    return is_same_bay(first, second)


def is_same_bay(first: FramedLayer, second: FramedLayer) -> bool:
    """Whether two framed layers are one, whatever fills it.

    Shapes: two layers. Range: any. Raises: nothing. Source: definition.
    """
    return (
        first.framing is second.framing
        and first.depth == second.depth
        and first.name == second.name
    )


def thickness_of(layers: Sequence[Layer]) -> float:
    """Of some layers together, m; framing counts by its depth.

    Shapes: any layers. Range: any. Raises: nothing. Source: definition.
    """
    total = 0.0
    for layer in layers:
        if isinstance(layer, FramedLayer):
            total += float(layer.depth)
        elif not isinstance(layer, ResistanceLayer):
            total += float(layer.thickness)
    return total


RULE = Rule(
    "wall growth",
    {"outward": Severity.WATCH, "inward": Severity.WATCH, "roof": Severity.WATCH},
    _judge,
)
