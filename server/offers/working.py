"""How the figures of an offer come about, frozen with it: formulas, inputs, sources as texts."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from typing import Any

from server.core.comparison import Comparison
from server.core.evaluate import Result
from server.core.explain import outage, year
from server.core.explain.base import Explanation
from server.core.explain.parts import resistance_of_all
from server.core.parts import PARTS
from server.core.power_cut import COOL_LIMITS, WARM_LIMITS, power_cut
from server.explaining.blocks import Place, blocks
from server.offers.assemblies import coldest_surface
from server.pricing import explain
from server.pricing.book import REASONS
from server.pricing.carbon import EmbodiedCarbon
from server.pricing.estimate import Estimate
from server.sheet import number

Working = dict[str, list[dict[str, Any]]]


def frozen_working(
    comparison: Comparison,
    names: Sequence[str],
    priced: Sequence[tuple[Estimate, EmbodiedCarbon]],
    assemblies: Sequence[Mapping[str, Any]],
    basis: Callable[[Place], str],
) -> Working:
    """By figure, the blocks that explain it for the options of these names, as found first.

    priced: of the options but the first. assemblies: as `main_assemblies` tells them.
    """
    results = comparison.all_results
    told: dict[str, Sequence[Explanation | None]] = {
        "heating": [year.heating_need(result) for result in results],
        "cooling": [year.cooling_need(result) for result in results],
        "bill": [year.annual_cost(result) for result in results],
        "carbon": [year.carbon(result) for result in results],
        "tightness": [year.air_changes_at_50_pa(result) for result in results],
        **{
            f"part {part}": [year.heat_of_part(result, part) for result in results]
            for part in PARTS
        },
        "stays_warm": [
            outage.hours(result, power_cut(result).winter_mean, COOL_LIMITS[0], winter=True)
            for result in results
        ],
        "stays_cool": [
            outage.hours(result, power_cut(result).summer_mean, WARM_LIMITS[0], winter=False)
            for result in results
        ],
        **_of_prices(results, priced),
        **_of_assemblies(results, assemblies),
    }
    return {
        name: [_plain(asdict(block)) for block in blocks(each, names, basis)]
        for name, each in told.items()
    }


def _plain(part: Any) -> Any:
    """The same with lists for tuples, as JSON gives it back."""
    if isinstance(part, dict):
        return {name: _plain(each) for name, each in part.items()}
    if isinstance(part, list | tuple):
        return [_plain(each) for each in part]
    return part


def _of_prices(
    results: Sequence[Result], priced: Sequence[tuple[Estimate, EmbodiedCarbon]]
) -> dict[str, Sequence[Explanation | None]]:
    found = results[0]
    bills = [(number(found.annual_cost), number(each.annual_cost)) for each in results]
    gases = [(number(found.carbon), number(each.carbon)) for each in results]
    saving = [explain.yearly_saving(*each) for each in bills]
    saved = [None if each is None else float(each.value) for each in saving]
    estimates = [(estimate, saved[n]) for n, (estimate, _made) in enumerate(priced, start=1)]
    return {
        "saving": saving,
        "cost": [None, *(explain.installed_cost(estimate) for estimate, _saved in estimates)],
        **{
            f"cost {reason}": [
                None,
                *(explain.cost_by_reason(estimate, reason) for estimate, _saved in estimates),
            ]
            for reason in REASONS
        },
        "payback": [None, *(explain.payback(*each, extra=False) for each in estimates)],
        "payback of extra": [None, *(explain.payback(*each, extra=True) for each in estimates)],
        "embodied": [None, *(explain.embodied(made) for _estimate, made in priced)],
        "carbon payback": [
            None,
            *(
                explain.carbon_payback(made, *gases[n])
                for n, (_estimate, made) in enumerate(priced, start=1)
            ),
        ],
    }


def _of_assemblies(
    results: Sequence[Result], assemblies: Sequence[Mapping[str, Any]]
) -> dict[str, Sequence[Explanation | None]]:
    told: dict[str, Sequence[Explanation | None]] = {}
    parts = [each.component.name for each in results[0].components]
    for place, assembly in enumerate(assemblies):
        members = [parts.index(name) for name in assembly["components"]]
        inside = [each["indoors"] for each in assembly["by_option"]]
        told[f"resistance {place}"] = [
            None if indoors else resistance_of_all(result, members)
            for result, indoors in zip(results, inside, strict=True)
        ]
        told[f"surface {place}"] = [
            None if indoors else coldest_surface(result, members)
            for result, indoors in zip(results, inside, strict=True)
        ]
    return told
