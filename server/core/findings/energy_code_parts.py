"""The U of every component that is worked on, beside what the energy code asks of it."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.code_limits import Limits
from server.core.findings.layers import is_solid_masonry
from server.core.house import Kind

NEARLY = 1.0005  # a figure printed as the limit meets it


def limit_of(case: Case, part: Part, limits: Limits) -> tuple[str, float] | None:
    """What sort of part the code takes a component for, and the most its U may be, W/(m2 K).

    Shapes: one component of the shell. Range: None for slabs and basement floors, of which it asks
    something else, and for doors without glass. Raises: nothing.
    Source: IECC Table R402.1.2, its columns.
    """
    if part.kind is Kind.WALL:
        sort = "mass wall" if is_solid_masonry(part.layers) else "frame wall"
        return sort, limits.mass_wall if sort == "mass wall" else limits.frame_wall
    if part.kind is Kind.BASEMENT_WALL:
        crawl = not _has_floor(case, part.component.from_space)
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


def _has_floor(case: Case, space: str) -> bool:
    return case.house.basement_floor_of(space) is not None


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
