"""The U of every component that is worked on, beside what the energy code asks of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from server.core.assembly import FramedLayer, Layer, SolidLayer
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.brick_veneer import veneer_at
from server.core.findings.case import Case, Part
from server.core.findings.code_limits import Limits, mass_wall_inside
from server.core.findings.ground_floors import has_concrete_floor
from server.core.findings.layers import (
    MASONRY,
    fill_thickness,
    insulates,
    resistance_of,
)
from server.core.house import Kind

LOGS = 0.0889  # m: 3 1/2 in of wood without framing is a log wall (our judgement)
NEARLY = 1.0005  # a figure printed as the limit meets it


def limit_of(case: Case, part: Part, limits: Limits) -> tuple[str, float] | None:
    """What sort of part the code takes a component for, and the most its U may be, W/(m2 K).

    Shapes: one component of the shell. Range: None for slabs and basement floors, of which it asks
    something else, and for doors without glass. Raises: nothing.
    Source: IECC Table R402.1.2, its columns.
    """
    if part.kind is Kind.WALL:
        return _wall_limit(case, part, limits)
    if part.kind is Kind.BASEMENT_WALL:
        crawl = not has_concrete_floor(case.house, part.component.from_space)
        return (
            ("crawlspace wall", limits.crawl_wall)
            if crawl
            else (
                "basement wall",
                limits.basement_wall,
            )
        )
    return {
        Kind.ROOF: ("ceiling", limits.ceiling),
        Kind.CEILING: ("ceiling", limits.ceiling),
        Kind.FLOOR: ("floor", limits.floor),
        Kind.WINDOW: ("window", limits.window),
        Kind.SKYLIGHT: ("skylight", limits.skylight),
    }.get(part.kind)


def _wall_limit(case: Case, part: Part, limits: Limits) -> tuple[str, float]:
    if not _is_mass_wall(part.layers):
        return "frame wall", limits.frame_wall
    own = "mass_wall" in case.site.code.own
    if own or case.zone is None or not _is_insulated_inside(part.layers):
        return "mass wall", limits.mass_wall
    return "mass wall insulated inside", mass_wall_inside(
        case.zone.number, marine=case.zone.is_marine
    )


def _is_mass_wall(layers: Sequence[Layer]) -> bool:
    """Brick, stone, block, concrete or logs that carry the wall; a veneer is none."""
    veneer = veneer_at(layers)
    solid = [layer for index, layer in enumerate(layers) if index != veneer]
    if any(isinstance(x, SolidLayer) and x.material.group in MASONRY for x in solid):
        return True
    logs = [x for x in solid if isinstance(x, SolidLayer) and x.material.group == "structure"]
    framed = any(isinstance(layer, FramedLayer) for layer in layers)
    return not framed and sum(float(log.thickness) for log in logs) >= LOGS


def _is_insulated_inside(layers: Sequence[Layer]) -> bool:
    """Whether more than half of a mass wall's insulation lies inside of its masonry."""
    masonry = [
        index
        for index, layer in enumerate(layers)
        if isinstance(layer, SolidLayer) and layer.material.group in MASONRY
    ]
    if not masonry:
        return False
    inside = sum(_insulation(layer) for layer in layers[: masonry[0]])
    return inside > sum(_insulation(layer) for layer in layers[masonry[0] :])


def _insulation(layer: Layer) -> float:
    """R of a layer that insulates, along its fill, m2 K/W."""
    if isinstance(layer, FramedLayer) and layer.fill is not None and insulates(layer):
        return fill_thickness(layer) / float(layer.fill.conductivity)
    return resistance_of(layer) if isinstance(layer, SolidLayer) and insulates(layer) else 0.0


def code_limits(case: Case) -> Limits | None:
    """The limits of the house's zone; None where the zone is not known.

    Shapes: one case. Range: any. Raises: nothing. Source: `CodeLimits`.
    """
    if case.zone is None:
        return None
    return case.site.code.limits(case.zone.number, marine=case.zone.is_marine)


def _judge(case: Case) -> Iterator[Found]:
    if case.strategy is None:
        return
    limits = code_limits(case)
    if limits is None:
        yield Found("zone not known")
        return
    for part in case.parts:
        if part.is_shell:
            yield from _judged(case, part, limits)


def _judged(case: Case, part: Part, limits: Limits) -> Iterator[Found]:
    held = limit_of(case, part, limits)
    gain = part.component.shgc
    is_other_glass = gain is not part.before.shgc
    if held is None or not (part.is_changed or is_other_glass):
        return
    sort, limit = held
    assert case.zone is not None
    facts: dict[str, Fact] = {
        "edition": case.site.code.edition,
        "zone": f"{case.zone.number}{case.zone.letter}",
        "sort": sort,
    }
    if part.is_changed:
        u_value = float(case.after.components[part.index].u_value)
        measured = Measured(Quantity(round(u_value, 4), "u_value"), Quantity(limit, "u_value"))
        outcome = "meets" if u_value <= limit * NEARLY else "misses"
        yield Found(outcome, (part.name,), facts, measured)
    if gain is not None and limits.shgc is not None and float(gain) > limits.shgc * NEARLY:
        held_gain = Measured(Quantity(float(gain), "factor"), Quantity(limits.shgc, "factor"))
        yield Found("lets in more sun", (part.name,), facts, held_gain)


RULE = Rule(
    "energy code, part by part",
    {
        "meets": Severity.GOOD,
        "misses": Severity.WATCH,
        "lets in more sun": Severity.WATCH,
        "zone not known": Severity.OPEN,
    },
    _judge,
)
