"""What strategies cost, and what that buys: rows beside the computed ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.core.comparison import Comparison
from server.core.evaluate import Result
from server.core.explain.base import Explanation
from server.files.building import Survey
from server.files.house_file import StrategyEntry
from server.pricing import explain
from server.pricing.book import REASONS, PriceBook
from server.pricing.carbon import EmbodiedCarbon, embodied_carbon, years_to_repay
from server.pricing.estimate import Estimate, Payback, payback, price
from server.pricing.growth import most_outward
from server.pricing.takeoff import take_off
from server.sheet import Figure, Row, Section, number, whole_parts

LONGEST_YEARS = 200  # longer than anybody waits

REASON_NAMES = {
    "due anyway": _("of it due anyway"),
    "insulation": _("of it insulation"),
    "only because of insulation": _("of it only because of insulation"),
}


@dataclass(frozen=True, slots=True)
class Costing:
    """One strategy, priced. fuel_cost USD and carbon kg: of a year before and after. growth: m."""

    entry: StrategyEntry
    estimate: Estimate
    fuel_cost: tuple[float | None, float | None]
    carbon: tuple[float | None, float | None]
    payback: Payback | None
    embodied: EmbodiedCarbon
    growth: float

    @property
    def saving(self) -> float | None:
        """Fuel cost saved a year, USD."""
        return _less(*self.fuel_cost)

    @property
    def years_to_repay_carbon(self) -> float | None:
        """Years until the carbon of making the materials is saved; None where never or unknown."""
        saved = _less(*self.carbon)
        return None if saved is None else years_to_repay(self.embodied, saved)


def costings(survey: Survey, comparison: Comparison, book: PriceBook) -> list[Costing]:
    """Every strategy of a comparison, priced."""
    entries = {entry.name: entry for entry in survey.file.strategies}
    return [
        costing(survey, entries[strategy.name], comparison.as_found, result, book)
        for strategy, result in zip(comparison.strategies, comparison.results, strict=True)
    ]


def costing(
    survey: Survey, entry: StrategyEntry, found: Result, result: Result, book: PriceBook
) -> Costing:
    """One strategy, priced."""
    items = take_off(survey.project, entry)
    estimate = price(items, book)
    fuel_cost = number(found.annual_cost), number(result.annual_cost)
    saving = _less(*fuel_cost)
    return Costing(
        entry=entry,
        estimate=estimate,
        fuel_cost=fuel_cost,
        carbon=(number(found.carbon), number(result.carbon)),
        payback=None if saving is None else payback(estimate, saving * 100),
        embodied=embodied_carbon(items),
        growth=most_outward(survey.file, entry),
    )


def _less(before: float | None, after: float | None) -> float | None:
    return None if before is None or after is None else before - after


def cost_section(priced: Sequence[Costing]) -> Section:
    """What the work costs and when it is paid back; as found costs nothing."""
    return Section(
        _("What it costs"),
        _(
            "Installed, from the firm's price book. Some of the work is due anyway; payback is "
            "simple, without interest or a change of prices."
        ),
        (*_cost_rows(priced), *_payback_rows(priced)),
    )


def _cost_rows(priced: Sequence[Costing]) -> list[Row]:
    by_reason = [
        whole_parts([c.estimate.cents_by_reason[reason] / 100 for reason in REASONS])
        for c in priced
    ]
    rows = [
        _row(
            REASON_NAMES[reason],
            "money",
            [parts[index] for parts in by_reason],
            [explain.cost_by_reason(c.estimate, reason) for c in priced],
        )
        for index, reason in enumerate(REASONS)
    ]
    total = Row(
        _("Installed cost"),
        "money",
        (Figure(None), *(Figure(sum(parts)) for parts in by_reason)),
        strong=True,
        explanations=(None, *(explain.installed_cost(c.estimate) for c in priced)),
    )
    return [*rows, total]


def _payback_rows(priced: Sequence[Costing]) -> list[Row]:
    whole = [c.payback.whole_years if c.payback else None for c in priced]
    extra = [c.payback.extra_years if c.payback else None for c in priced]
    embodied: list[float | None] = [c.embodied.kg for c in priced]
    return [
        _row(
            _("Saving of fuel a year"),
            "money",
            [c.saving for c in priced],
            [explain.yearly_saving(*c.fuel_cost) for c in priced],
        ),
        _years(
            _("Simple payback of the whole"),
            whole,
            [explain.payback(c.estimate, c.saving, extra=False) for c in priced],
        ),
        _years(
            _("… beyond what is due anyway"),
            extra,
            [explain.payback(c.estimate, c.saving, extra=True) for c in priced],
        ),
        _row(
            _("Carbon dioxide of making the materials"),
            "carbon_mass",
            embodied,
            [explain.embodied(c.embodied) for c in priced],
        ),
        _years(
            _("Years until that is saved"),
            [c.years_to_repay_carbon for c in priced],
            [explain.carbon_payback(c.embodied, *c.carbon) for c in priced],
        ),
    ]


def built_section(comparison: Comparison, priced: Sequence[Costing]) -> Section:
    """Where the insulation runs and what changes outside."""
    results = comparison.all_results
    inside = [
        ", ".join(space.name for space in result.house.spaces if space.inside) for result in results
    ]
    spaces = tuple(Figure(None, note=each) for each in inside)
    flows = Row(
        _("Ventilation"),
        "flow",
        tuple(Figure(number(result.house.ventilation.flow)) for result in results),
    )
    return Section(
        _("What is built"),
        _("Spaces inside the insulation, and how far the walls grow outward."),
        (
            Row(_("Inside the insulation"), "words", spaces),
            flows,
            _row(_("Walls grow outward by"), "thickness", [c.growth for c in priced]),
        ),
    )


def _row(
    name: str,
    kind: str,
    figures: Sequence[float | None],
    explanations: Sequence[Explanation | None] = (),
) -> Row:
    """A row of the strategies; as found has no figure in it."""
    behind = (None, *explanations) if explanations else ()
    return Row(name, kind, (Figure(None), *(Figure(each) for each in figures)), explanations=behind)


def _years(
    name: str, years: Sequence[float | None], explanations: Sequence[Explanation | None]
) -> Row:
    """Years with a word for those that never come."""
    figures = (Figure(None), *(Figure(each, note=_in_words(each)) for each in years))
    return Row(name, "words", figures, explanations=(None, *explanations))


def _in_words(years: float | None) -> str:
    if years is None or years > LONGEST_YEARS:
        return _("never")
    if years < 10:
        return _("{years:.1f} years").format(years=years)
    return _("{years:.0f} years").format(years=years)
