"""How prices, payback and embodied carbon come about."""

from __future__ import annotations

import math
from collections.abc import Sequence

from server.core.explain.base import SUM, Explanation, Formula, Input, Label
from server.pricing.book import REASONS, Reason
from server.pricing.carbon import EmbodiedCarbon
from server.pricing.estimate import Estimate

PRICE_BOOK = "the firm's price book, line by line"
SIMPLE = "simple payback, without interest or a change of prices"
MATERIALS = "density times volume times the kg let out for a kg, from the table of materials"

_BY_REASON = Formula("cost_lines", "C", SUM, "USD", PRICE_BOOK)
_INSTALLED = Formula("installed_cost", "C", SUM, "USD", PRICE_BOOK)
_SAVING = Formula("yearly_saving", "S", "before - after", "USD", "definition")
_WHOLE = Formula("payback", "t", "C/S", "a", SIMPLE)
_EXTRA = Formula("payback_of_extra", "t", "(C - C_due)/S", "a", SIMPLE)
_EMBODIED = Formula("embodied_carbon", "m", SUM, "kg", MATERIALS)
_REPAY = Formula("carbon_payback", "t", "m/(before - after)", "a", "definition")


def cost_by_reason(estimate: Estimate, reason: Reason) -> Explanation:
    """The lines of one reason, in dollars."""
    lines = [
        (line.words, line.total_cents / 100) for line in estimate.lines if line.reason == reason
    ]
    return _sum(_BY_REASON, lines, estimate.total_cents / 100)


def installed_cost(estimate: Estimate) -> Explanation:
    """The three reasons, in dollars."""
    cents = estimate.cents_by_reason
    inputs = tuple(
        Input(f"C_{number}", reason.replace(" ", "_"), cents[reason] / 100, "USD")
        for number, reason in enumerate(REASONS, start=1)
    )
    return Explanation(_INSTALLED, estimate.total_cents / 100, inputs)


def yearly_saving(before: float | None, after: float | None) -> Explanation | None:
    """What the bills are less a year, in dollars; None where one is unknown."""
    if before is None or after is None:
        return None
    return Explanation(_SAVING, before - after, _bills(before, after, "USD"))


def payback(estimate: Estimate, saving: float | None, *, extra: bool) -> Explanation | None:
    """Years until the saving has paid the whole, or what is not due anyway; None where never."""
    if saving is None or not saving > 0.0:
        return None
    whole = estimate.total_cents / 100
    due = estimate.cents_by_reason["due anyway"] / 100
    cost = Input("C", "installed_cost", whole, "USD")
    saved = Input("S", "yearly_saving", saving, "USD/a")
    if not extra:
        return Explanation(_WHOLE, whole / saving, (cost, saved))
    already = Input("C_due", "due_anyway", due, "USD")
    return Explanation(_EXTRA, (whole - due) / saving, (cost, already, saved))


def embodied(carbon: EmbodiedCarbon) -> Explanation:
    """The materials that are added, those of one name together, in kg."""
    by_name: dict[str, list[float]] = {}
    for item, kg in carbon.counted:
        by_name.setdefault(item.material or item.words, []).append(kg)
    return _sum(_EMBODIED, [(name, math.fsum(each)) for name, each in by_name.items()], None)


def carbon_payback(
    carbon: EmbodiedCarbon, before: float | None, after: float | None
) -> Explanation | None:
    """Years until what is let out less has made good; None where never or unknown."""
    if before is None or after is None or not before > after:
        return None
    made = Input("m", "embodied_carbon", carbon.kg, "kg")
    years = carbon.kg / (before - after)
    return Explanation(_REPAY, years, (made, *_bills(before, after, "kg/a")))


def _bills(before: float, after: float, unit: str) -> tuple[Input, Input]:
    return Input("before", "as_found", before, unit), Input("after", "after_work", after, unit)


def _sum(
    formula: Formula, members: Sequence[tuple[str, float]], whole: float | None
) -> Explanation:
    inputs = tuple(
        Input(f"{formula.symbol}_{number}", Label(words), value, formula.unit)
        for number, (words, value) in enumerate(members, start=1)
    )
    total = sum(value for _words, value in members)
    return Explanation(formula, total, inputs, total / whole if whole else None)
