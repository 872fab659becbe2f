"""Freeze a comparison with its prices: what is sent, and what its page shows for ever.

A page renders the frozen figures and computes nothing. They stand in base SI units, money in whole
cents, and every name and sentence in the words that were sent.
"""

from __future__ import annotations

import functools
import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from server.core.comparison import Comparison
from server.core.evaluate import METHOD_VERSION, Result
from server.core.parts import PARTS, heating_by_part
from server.core.power_cut import COOL_LIMITS, WARM_LIMITS, power_cut
from server.crew.before import remarkable
from server.crew.cautions import CODES as CAUTIONS
from server.crew.cautions import caution_words
from server.crew.handled import cautions_of
from server.drawings.heat_bars import heat_bars
from server.files.basis import basis_at
from server.files.building import Project
from server.files.comparison_file import comparison_document
from server.files.house_file import ComponentEntry, StrategyEntry
from server.finding_words.side_by_side import side_by_side
from server.offers import guesses
from server.offers.assemblies import main_assemblies
from server.offers.option_words import (
    PART_NAMES,
    as_found_line,
    as_found_name,
    option_line,
    option_names,
    whole_work,
)
from server.offers.working import frozen_working
from server.pricing.book import REASONS
from server.pricing.carbon import EmbodiedCarbon, embodied_carbon, years_to_repay
from server.pricing.estimate import Estimate, payback
from server.pricing.growth import most_outward
from server.pricing.layer_work import layer_works
from server.pricing.takeoff import take_off
from server.recipes.words import change_in_words
from server.sheet import JOULES_PER_KWH, number, whole_parts
from server.sheet.design import hours_in_words
from server.units import System

OFFER_FORMAT = 3

Content = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Senders:
    """Who sends an offer, and the units its page is in."""

    firm: str
    person: str
    units: System


@dataclass(frozen=True, slots=True)
class Versions:
    """What an offer was made from. region: None where the house follows no region's defaults."""

    house: int
    price_book: int
    region: int | None
    invented_prices: bool


def canonical(content: Content) -> bytes:
    """The one way an offer is written, so that its hash is always the same."""
    text = json.dumps(
        content, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False
    )
    return text.encode("utf-8")


def sha256(content: Content) -> str:
    """What says that an offer is still the one that was sent."""
    return hashlib.sha256(canonical(content)).hexdigest()


def freeze(
    project: Project,
    estimates: Mapping[str, Estimate],
    note: str,
    people: Senders,
    versions: Versions,
    created: datetime,
) -> Content:
    """Everything an offer shows, as plain data for JSON.

    estimates: by the name of the strategy, one for each of the project's. Raises: BadFile where
    the house has no balance.
    """
    comparison = project.compare()
    document = project.file.as_written()
    climate = comparison.house.climate
    options = _options(project, comparison, estimates)
    assemblies = _assemblies(comparison, document)
    names = [option["name"] for option in options]
    return {
        "offer_format": OFFER_FORMAT,
        "created": created.isoformat(),
        "note": note,
        "firm": people.firm,
        "sender": people.person,
        "units": people.units,
        "versions": {
            "house": versions.house,
            "price_book": versions.price_book,
            "region": versions.region,
            "method": METHOD_VERSION,
        },
        "invented_prices": versions.invented_prices,
        "house": {
            "name": project.file.name,
            "year_built": project.file.year_built,
            "climate": climate.name,
            "zone": climate.iecc_zone,
            "inside_temperature": float(comparison.house.heating_set_point),
            "design_temperature": number(climate.heating_design_temperature),
        },
        "unmeasured": guesses.unmeasured(document),
        "air_is_guessed": guesses.air_is_guessed(document),
        "power_cut_limits": {"stays_warm": COOL_LIMITS[0], "stays_cool": WARM_LIMITS[0]},
        "parts": [{"key": part, "name": PART_NAMES[part]} for part in PARTS],
        "options": options,
        "findings": _findings(project, comparison, names, people.units),
        "cautions": _cautions(project, comparison),
        "bars": _bars(comparison, names),
        "assemblies": assemblies,
        "working": frozen_working(
            comparison,
            names,
            _priced(project, comparison, estimates),
            assemblies,
            functools.partial(basis_at, project.file),
        ),
        "changed": None,
        "house_file": document,
        "comparison_file": comparison_document(project, comparison),
    }


def _findings(
    project: Project, comparison: Comparison, names: list[str], units: System
) -> list[Content]:
    """What could go wrong, in the words and units in which it is sent."""
    judged = project.judge(comparison)
    rows = [asdict(row) for row in side_by_side(judged, names, units)]
    plain: list[Content] = json.loads(json.dumps(rows))  # tuples read back as lists
    return plain


def _cautions(project: Project, comparison: Comparison) -> list[str]:
    """What to beware of while any of the options is built."""
    entries = {entry.name: entry for entry in project.file.strategies}
    fired: set[str] = set()
    for strategy in comparison.strategies:
        entry = entries[strategy.name]
        works = layer_works(project.file, entry)
        fired.update(cautions_of(project, works, take_off(project, entry)))
    return [caution_words(code) for code in CAUTIONS if code in fired]


def _priced(
    project: Project, comparison: Comparison, estimates: Mapping[str, Estimate]
) -> list[tuple[Estimate, EmbodiedCarbon]]:
    entries = {entry.name: entry for entry in project.file.strategies}
    return [
        (estimates[each.name], embodied_carbon(take_off(project, entries[each.name])))
        for each in comparison.strategies
    ]


def _options(
    project: Project, comparison: Comparison, estimates: Mapping[str, Estimate]
) -> list[Content]:
    entries = {entry.name: entry for entry in project.file.strategies}
    fitting = [entries[strategy.name] for strategy in comparison.strategies]
    found = comparison.as_found
    first = {
        "name": as_found_name(),
        "own_name": None,
        "line": as_found_line(),
        "cost": None,
        "payback": None,
        "embodied": None,
        "wall_growth": 0.0,
        "work": [],
        "whole_work": [],
        "conditions": [],
        **_yearly(found, found),
    }
    options = [first]
    names = option_names(fitting)
    for name, entry, result in zip(names, fitting, comparison.results, strict=True):
        yearly = _yearly(result, found)
        options.append(
            {
                "name": name,
                "own_name": entry.name,
                "line": option_line(entry),
                **_money(project, entry, estimates[entry.name], yearly),
                "wall_growth": most_outward(project.file, entry),
                **_work(project, entry),
                **yearly,
            }
        )
    return options


def _yearly(result: Result, found: Result) -> Content:
    """What a year takes, and what that is less than as found."""
    house = result.house
    shares = heating_by_part(result)
    whole = whole_parts([float(shares[part]) for part in PARTS])
    ventilation = house.ventilation
    cut = power_cut(result)
    return {
        "fuel_cost_usd": number(result.annual_cost),
        "saving_usd": _less(number(found.annual_cost), number(result.annual_cost)),
        "carbon_kg": number(result.carbon),
        "carbon_saving_kg": _less(number(found.carbon), number(result.carbon)),
        "heating_j": sum(whole) * JOULES_PER_KWH,
        "cooling_j": float(result.cooling_load_kwh) * JOULES_PER_KWH,
        "moisture_j": float(result.latent_load_kwh) * JOULES_PER_KWH,
        "heat_by_part_j": {
            part: energy * JOULES_PER_KWH for part, energy in zip(PARTS, whole, strict=True)
        },
        "inside_spaces": [space.name for space in house.spaces if space.inside],
        "ach50": number(result.air_changes_at_50_pa),
        "stays_warm": hours_in_words(float(cut.winter_mean.hours_above(COOL_LIMITS[0]))),
        "stays_cool": hours_in_words(float(cut.summer_mean.hours_below(WARM_LIMITS[0]))),
        "ventilation_flow": number(ventilation.flow),
    }


def _less(before: float | None, after: float | None) -> float | None:
    return None if before is None or after is None else before - after


def _money(
    project: Project, entry: StrategyEntry, estimate: Estimate, yearly: Content
) -> dict[str, Any]:
    embodied = embodied_carbon(take_off(project, entry))
    saving, carbon_saving = yearly["saving_usd"], yearly["carbon_saving_kg"]
    paid = None if saving is None else payback(estimate, saving * 100)
    return {
        "cost": _cost(estimate),
        "payback": None
        if paid is None
        else {"whole_years": paid.whole_years, "extra_years": paid.extra_years},
        "embodied": {
            "kg": embodied.kg,
            "without_figures": sorted({item.words for item in embodied.without_figures}),
            "years_to_repay": None
            if carbon_saving is None
            else years_to_repay(embodied, carbon_saving),
        },
    }


def _cost(estimate: Estimate) -> Content:
    """Whole dollars beside the cents: by reason they sum to the dollars of the total."""
    cents = estimate.cents_by_reason
    dollars = whole_parts([cents[reason] / 100 for reason in REASONS])
    return {
        "total_cents": estimate.total_cents,
        "total_usd": sum(dollars),
        "by_reason": [
            {"reason": reason, "cents": cents[reason], "usd": usd}
            for reason, usd in zip(REASONS, dollars, strict=True)
        ],
        "lines": [
            {
                "words": line.words,
                "quantity": str(line.quantity),
                "unit": line.unit,
                "material_cents": line.material_cents,
                "labour_cents": line.labour_cents,
                "total_cents": line.total_cents,
                "reason": line.reason,
                "minimum": line.minimum_applied,
            }
            for line in estimate.lines
        ],
        "unpriced": [
            {"words": item.words, "component": item.component} for item in estimate.unpriced
        ],
    }


def _work(project: Project, entry: StrategyEntry) -> Content:
    """What happens at the house: parts that are done alike stand together."""
    alike: dict[tuple[str, ...], list[str]] = {}
    touched: list[ComponentEntry] = []
    for component in project.file.components:
        change = entry.change_of(component)
        if change is None:
            continue
        built = project.file.assemblies.get(component.assembly or "")
        alike.setdefault(change_in_words(change, built), []).append(component.name)
        touched.append(component)
    return {
        "work": [{"where": where, "words": list(words)} for words, where in alike.items()],
        "whole_work": whole_work(entry, project.file),
        "conditions": remarkable(touched),
    }


def _bars(comparison: Comparison, names: list[str]) -> list[Content]:
    """The drawing of the heat by part: places and widths in percent."""
    shares = [
        {part: float(energy) for part, energy in heating_by_part(result).items()}
        for result in comparison.all_results
    ]
    return [
        {
            "segments": [
                {"part": each.part, "start": each.start, "width": each.width}
                for each in bar.segments
                if each.width > 0.0
            ]
        }
        for bar in heat_bars(names, shares)
    ]


def _assemblies(comparison: Comparison, document: Content) -> list[Content]:
    guessed = guesses.guessed_parts(document)
    return [
        {**each, "guessed": any(name in guessed for name in each["components"])}
        for each in main_assemblies(comparison)
    ]
