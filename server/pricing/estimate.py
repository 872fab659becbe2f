"""What the work costs: rates times quantities, in whole cents."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from gettext import gettext as _

from server.files.material_groups import group_of
from server.pricing.book import REASONS, PriceBook, PriceLine, Reason
from server.pricing.steps import MATERIAL_STEPS, Step
from server.pricing.work_item import Unit, WorkItem

# Quantities go through SI, which leaves some 1e-13 of noise; a cent must not hang on it.
DECIMALS = 6


@dataclass(frozen=True, slots=True)
class EstimateLine:
    """One printed line: all work of one price. quantity: in the unit of the trade.

    Where the minimum charge applies, what is missing to it is added to the labour.
    """

    words: str
    quantity: Decimal
    unit: Unit
    material_cents: int
    labour_cents: int
    total_cents: int
    reason: Reason
    price_key: str
    minimum_applied: bool


@dataclass(frozen=True, slots=True)
class Estimate:
    """Printed lines in the order of the price book, and the items that it has no price for."""

    lines: tuple[EstimateLine, ...]
    unpriced: tuple[WorkItem, ...]

    @property
    def total_cents(self) -> int:
        """The sum of the printed totals; what is unpriced is not in it."""
        return sum(line.total_cents for line in self.lines)

    @property
    def cents_by_reason(self) -> dict[Reason, int]:
        """The total by reason; the three sum to it."""
        return {
            reason: sum(line.total_cents for line in self.lines if line.reason == reason)
            for reason in REASONS
        }


@dataclass(frozen=True, slots=True)
class Payback:
    """Years until savings have paid: the whole sum, or what it costs beyond what was due anyway.

    None where nothing is saved.
    """

    whole_years: float | None
    extra_years: float | None


def price(items: Iterable[WorkItem], book: PriceBook) -> Estimate:
    """The estimate of items: those of one price are summed first, then rounded once, half up."""
    groups: dict[str, list[WorkItem]] = {}
    unpriced = []
    for item in items:
        line = price_line_of(item, book)
        if line is None:
            unpriced.append(item)
        else:
            groups.setdefault(line.key, []).append(item)
    lines = tuple(_printed(line, groups[line.key]) for line in book.lines if line.key in groups)
    return Estimate(lines, tuple(unpriced))


def price_line_of(item: WorkItem, book: PriceBook) -> PriceLine | None:
    """The line that prices an item: a material goes before its group, both before the step.

    Only steps that buy a material are priced by it. A line whose unit does not fit is passed over.
    """
    for matches in _matches(item):
        line = book.line_for(matches)
        if line is not None and item.quantity_in(line.unit) is not None:
            return line
    return None


def _matches(item: WorkItem) -> list[str]:
    if item.step not in MATERIAL_STEPS or item.material is None:
        return [item.step.value]
    # a material of the house's own may be called anything, so also what a step is called
    names = [item.material, group_of(item.material)]
    codes = set(Step)
    return [*(name for name in names if name and name not in codes), item.step.value]


def _printed(line: PriceLine, items: Sequence[WorkItem]) -> EstimateLine:
    quantity = _quantity(items, line.unit)
    material = _cents(quantity * line.material_cents)
    labour = _cents(quantity * line.labour_cents)
    missing = max(line.minimum_cents - material - labour, 0)
    is_estimated = any(item.estimated for item in items)
    return EstimateLine(
        words=_("{name} (quantity estimated)").format(name=line.name)
        if is_estimated
        else line.name,
        quantity=quantity,
        unit=line.unit,
        material_cents=material,
        labour_cents=labour + missing,
        total_cents=material + labour + missing,
        reason=line.reason,
        price_key=line.key,
        minimum_applied=missing > 0,
    )


def _quantity(items: Sequence[WorkItem], unit: Unit) -> Decimal:
    told = (item.quantity_in(unit) for item in items)
    whole = math.fsum(quantity for quantity in told if quantity is not None)
    return Decimal(f"{whole:.{DECIMALS}f}")


def _cents(amount: Decimal) -> int:
    return int(amount.quantize(Decimal(1), ROUND_HALF_UP))


def payback(estimate: Estimate, yearly_saving_cents: float) -> Payback:
    """Simple payback without interest or a change of prices."""
    if not yearly_saving_cents > 0:
        return Payback(None, None)
    whole = estimate.total_cents
    extra = whole - estimate.cents_by_reason["due anyway"]
    return Payback(whole / yearly_saving_cents, extra / yearly_saving_cents)
