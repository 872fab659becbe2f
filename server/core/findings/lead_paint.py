"""Old paint that the work disturbs."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.closed_bays import stays_closed
from server.core.house import INNER_KINDS, Kind

FIRST_YEAR_WITHOUT = 1978  # 40 CFR 745 (memory)
# m2 that a repair may disturb and still be a minor one, 40 CFR 745.83 (memory); indoors it is of
# each room. The replacement of windows is never a minor one.
SMALL = 20.0 * 0.3048**2
SMALL_INDOORS = 6.0 * 0.3048**2
_WINDOWS = (Kind.WINDOW, Kind.SKYLIGHT)


def _judge(case: Case) -> Iterator[Found]:
    year, answer = case.seen.year_built, case.seen.lead_paint
    if year is not None and year >= FIRST_YEAR_WITHOUT and answer != "found":
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
    small = SMALL_INDOORS if any(map(_is_indoors, disturbed)) else SMALL
    measured = Measured(Quantity(round(area, 2), "area"), Quantity(small, "area"))
    outcome = "work on lead paint" if answer == "found" else "work on paint not tested"
    if answer != "found" and year is None:
        outcome = "work, year not known"
    if area <= small and not any(_is_window_replaced(case, part) for part in disturbed):
        outcome = "small areas"
    # what holes disturb of a wall nobody knows: only what is small by any count has a figure
    shown = measured if outcome == "small areas" else None
    yield Found(outcome, tuple(part.name for part in disturbed), measured=shown)


def _unknown(year: int | None) -> str:
    return "year not known" if year is None else "presumed"


def _disturbs_paint(part: Part) -> bool:
    """Siding, trim or lining comes off, or holes are drilled through them."""
    if part.kind is Kind.ROOF and part.faces_outdoors and not _is_indoors(part):
        return False  # nobody paints a roof
    return part.is_opening or bool(part.removed) or stays_closed(part)


def _is_indoors(part: Part) -> bool:
    """Whether paint of the rooms is disturbed: the lining comes off or is drilled."""
    if part.kind in INNER_KINDS:
        return True
    if stays_closed(part):
        return part.seen.reached_from == "inside"
    return any(layer is part.layers_before[0] for layer in part.removed)


def _is_window_replaced(case: Case, part: Part) -> bool:
    """Whether more is done to a window than a storm hung over it."""
    openings = case.strategy.openings if case.strategy is not None else None
    change = (openings or {}).get(part.name)
    is_storm = change is not None and change.u_value is None
    return part.kind in _WINDOWS and not is_storm


RULE = Rule(
    "lead paint",
    {
        "work on lead paint": Severity.MEND,
        "work on paint not tested": Severity.MEND,
        "work, year not known": Severity.OPEN,
        "small areas": Severity.WATCH,
        "found": Severity.WATCH,
        "presumed": Severity.WATCH,
        "year not known": Severity.OPEN,
        "none": Severity.GOOD,
    },
    _judge,
)
