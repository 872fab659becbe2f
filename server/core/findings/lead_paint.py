"""Old paint that the work disturbs."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.closed_bays import stays_closed

FIRST_YEAR_WITHOUT = 1978  # 40 CFR 745 (memory)
SMALL = 20.0 * 0.3048**2  # m2: 20 ft2 outdoors; 6 ft2 a room indoors, 40 CFR 745.83 (memory)


def _judge(case: Case) -> Iterator[Found]:
    year, answer = case.seen.year_built, case.seen.lead_paint
    if year is not None and year >= FIRST_YEAR_WITHOUT:
        return
    if answer == "tested, none":
        yield Found("none")
        return
    disturbed = [part for part in case.changed if _disturbs_paint(part)]
    if not disturbed:
        if case.strategy is None:
            yield Found("found" if answer == "found" else _unknown(year))
        return
    area = sum(float(part.component.area) for part in disturbed)
    measured = Measured(Quantity(round(area, 2), "area"), Quantity(SMALL, "area"))
    outcome = "work on lead paint" if answer == "found" else "work on paint not tested"
    if area <= SMALL:
        outcome = "small areas"
    yield Found(outcome, tuple(part.name for part in disturbed), measured=measured)


def _unknown(year: int | None) -> str:
    return "year not known" if year is None else "presumed"


def _disturbs_paint(part: Part) -> bool:
    """Siding, trim or lining comes off, or holes are drilled through them."""
    return part.is_opening or bool(part.removed) or stays_closed(part)


RULE = Rule(
    "lead paint",
    {
        "work on lead paint": Severity.MEND,
        "work on paint not tested": Severity.MEND,
        "small areas": Severity.WATCH,
        "found": Severity.WATCH,
        "presumed": Severity.WATCH,
        "year not known": Severity.OPEN,
        "none": Severity.GOOD,
    },
    _judge,
)
