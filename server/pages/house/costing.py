"""What strategies cost, and what that buys: rows beside the computed ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.core.comparison import Comparison
from server.core.evaluate import Result
from server.files.building import Survey
from server.files.house_file import StrategyEntry
from server.pages.house.strategy_context import change_for
from server.pricing.book import REASONS, PriceBook
from server.pricing.carbon import EmbodiedCarbon, embodied_carbon, years_to_repay
from server.pricing.estimate import Estimate, Payback, payback, price
from server.pricing.growth import wall_growth
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
    """One strategy: its price, what it saves a year in USD and kg, its carbon and its growth, m."""

    entry: StrategyEntry
    estimate: Estimate
    saving: float | None
    payback: Payback | None
    embodied: EmbodiedCarbon
    carbon_saving: float | None
    growth: float

    @property
    def years_to_repay_carbon(self) -> float | None:
        """Years until the carbon of making the materials is saved; None where never or unknown."""
        if self.carbon_saving is None:
            return None
        return years_to_repay(self.embodied, self.carbon_saving)


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
    saving = _less(number(found.annual_cost), number(result.annual_cost))
    return Costing(
        entry=entry,
        estimate=estimate,
        saving=saving,
        payback=None if saving is None else payback(estimate, saving * 100),
        embodied=embodied_carbon(items),
        carbon_saving=_less(number(found.carbon), number(result.carbon)),
        growth=_growth(survey, entry),
    )


def _less(before: float | None, after: float | None) -> float | None:
    return None if before is None or after is None else before - after


def _growth(survey: Survey, entry: StrategyEntry) -> float:
    """The most that any outer wall grows outward."""
    grown = [0.0]
    for component in survey.file.components:
        found = change_for(entry, component.name, component.kind)
        is_outer = component.kind == "wall" and component.to == "outdoors"
        if is_outer and found is not None:
            grown.append(wall_growth(survey.file, component, found[1]).outward)
    return max(grown)


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
        _row(REASON_NAMES[reason], "money", [parts[index] for parts in by_reason])
        for index, reason in enumerate(REASONS)
    ]
    total = Row(
        _("Installed cost"),
        "money",
        (Figure(None), *(Figure(sum(parts)) for parts in by_reason)),
        strong=True,
    )
    return [*rows, total]


def _payback_rows(priced: Sequence[Costing]) -> list[Row]:
    whole = [c.payback.whole_years if c.payback else None for c in priced]
    extra = [c.payback.extra_years if c.payback else None for c in priced]
    embodied: list[float | None] = [c.embodied.kg for c in priced]
    return [
        _row(_("Saving of fuel a year"), "money", [c.saving for c in priced]),
        _years(_("Simple payback of the whole"), whole),
        _years(_("… beyond what is due anyway"), extra),
        _row(_("Carbon dioxide of making the materials"), "carbon_mass", embodied),
        _years(_("Years until that is saved"), [c.years_to_repay_carbon for c in priced]),
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


def _row(name: str, kind: str, figures: Sequence[float | None]) -> Row:
    return Row(name, kind, (Figure(None), *(Figure(figure) for figure in figures)))


def _years(name: str, years: Sequence[float | None]) -> Row:
    """Years with a word for those that never come."""
    return Row(
        name, "words", (Figure(None), *(Figure(each, note=_in_words(each)) for each in years))
    )


def _in_words(years: float | None) -> str:
    if years is None or years > LONGEST_YEARS:
        return _("never")
    if years < 10:
        return _("{years:.1f} years").format(years=years)
    return _("{years:.0f} years").format(years=years)
