"""What the comparison page shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from server.core.comparison import Comparison
from server.core.evaluate import METHOD_VERSION, Result
from server.core.parts import PARTS, heating_by_part
from server.drawings.heat_bars import heat_bars
from server.files.building import Project
from server.sheet import JOULES_PER_KWH, PART_NAMES, Section, number, sheet
from server.units import System


@dataclass(frozen=True, slots=True)
class Headline:
    """One result in three figures. Money in USD a year; None where unknown."""

    name: str
    cost: float | None
    saving: float | None
    heating_change: float | None


@dataclass(frozen=True, slots=True)
class PartLine:
    """One part of the house in base units; limits None where only U is known."""

    name: str
    kind: str
    ends: str
    area: float
    u_value: float
    resistance: float
    upper: float | None
    lower: float | None
    label: float | None
    conductance: float
    energy: float


@dataclass(frozen=True, slots=True)
class MonthLine:
    """One month in base units: deg C, W, J."""

    month: int
    outdoors: float
    balance_point: float
    gains: float
    heating: float
    cooling: float
    latent: float


@dataclass(frozen=True, slots=True)
class Working:
    """What is behind one result's figures."""

    name: str
    parts: tuple[PartLine, ...]
    months: tuple[MonthLine, ...]


def comparison_context(
    project: Project,
    text: str | None,
    units: System,
    *,
    base: int = 0,
    further: Callable[[Comparison], Sequence[Section]] = lambda _comparison: (),
) -> dict[str, Any]:
    """The comparison of a project.

    text: what it was read from, None for a stored house. base: the column that differences are
    taken against. further: sections before the computed ones.
    """
    comparison = project.compare()
    base = base if 0 <= base <= len(comparison.strategies) else 0
    laid_out = sheet(comparison, base)
    laid_out = replace(laid_out, sections=(*further(comparison), *laid_out.sections))
    shares = [
        {part: float(energy) for part, energy in heating_by_part(result).items()}
        for result in comparison.all_results
    ]
    return {
        "text": text,
        "units": units,
        "base": base,
        "sheet": laid_out,
        "headlines": _headlines(comparison, laid_out.columns),
        "bars": heat_bars(laid_out.columns, shares),
        "part_names": PART_NAMES,
        "parts": PARTS,
        "joules": JOULES_PER_KWH,
        "workings": [
            Working(name, _part_lines(result), _month_lines(result))
            for name, result in zip(laid_out.columns, comparison.all_results, strict=True)
        ],
        "year_built": project.file.year_built,
        "zone": comparison.house.climate.iecc_zone,
        "method_version": METHOD_VERSION,
    }


def _headlines(comparison: Comparison, names: tuple[str, ...]) -> list[Headline]:
    found = comparison.as_found
    before = float(found.heating_load_kwh)
    lines = []
    for name, result in zip(names, comparison.all_results, strict=True):
        cost, cost_before = number(result.annual_cost), number(found.annual_cost)
        saving = None if cost is None or cost_before is None else cost_before - cost
        lines.append(
            Headline(
                name,
                cost=cost,
                saving=saving,
                heating_change=float(result.heating_load_kwh) / before - 1.0 if before else None,
            )
        )
    return lines


def _part_lines(result: Result) -> tuple[PartLine, ...]:
    lines = []
    for each in result.components:
        part, limits = each.component, each.limits
        lines.append(
            PartLine(
                name=part.name,
                kind=part.kind.value,
                ends=f"{part.from_space} → {part.to_space}",
                area=float(part.area),
                u_value=float(each.u_value),
                resistance=float(each.resistance),
                upper=None if limits is None else float(limits.upper),
                lower=None if limits is None else float(limits.lower),
                label=number(each.label_resistance),
                conductance=float(each.conductance),
                energy=float(each.heating_share_kwh) * JOULES_PER_KWH,
            )
        )
    return tuple(lines)


def _month_lines(result: Result) -> tuple[MonthLine, ...]:
    outdoors = result.house.climate.mean_temperature
    return tuple(
        MonthLine(
            month=month + 1,
            outdoors=float(outdoors[month]),
            balance_point=float(result.heating.balance_point[month]),
            gains=float(result.gains[month]),
            heating=float(result.heating.load_kwh[month]) * JOULES_PER_KWH,
            cooling=float(result.cooling.load_kwh[month]) * JOULES_PER_KWH,
            latent=float(result.cooling.latent_kwh[month]) * JOULES_PER_KWH,
        )
        for month in range(12)
    )
