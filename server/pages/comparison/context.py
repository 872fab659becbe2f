"""What the comparison page shows."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from server.core.comparison import Comparison
from server.core.evaluate import METHOD_VERSION
from server.core.findings.base import Finding
from server.core.parts import PARTS, heating_by_part
from server.core.power_cut import COOL_LIMITS, WARM_LIMITS, power_cut
from server.drawings.drift_lines import DriftDrawing, drift_drawing
from server.drawings.heat_bars import heat_bars
from server.drawings.vapour_lines import VapourDrawing, vapour_drawing
from server.explaining.working import assemblies_told, once_a_year, working
from server.files.basis import basis_at
from server.files.building import Project
from server.finding_words.side_by_side import side_by_side
from server.sheet import JOULES_PER_KWH, PART_NAMES, Section, number, sheet, whole_parts
from server.units import System


@dataclass(frozen=True, slots=True)
class Headline:
    """One result in three figures. Money in USD a year; None where unknown."""

    name: str
    cost: float | None
    saving: float | None
    heating_change: float | None


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
        dict(zip(energies, whole_parts([float(e) for e in energies.values()]), strict=True))
        for energies in map(heating_by_part, comparison.all_results)
    ]
    judged = project.judge(comparison)
    return {
        "findings": side_by_side(judged, laid_out.columns, units),
        "vapour": {"interstitial": _pictures(judged, laid_out.columns)},
        "text": text,
        "units": units,
        "base": base,
        "sheet": laid_out,
        "headlines": _headlines(comparison, laid_out.columns),
        "bars": heat_bars(laid_out.columns, shares),
        **_drifts(comparison, laid_out.columns),
        "part_names": PART_NAMES,
        "parts": PARTS,
        "joules": JOULES_PER_KWH,
        "basis_at": functools.partial(basis_at, project.file),
        "workings": [
            (name, working(result), once_a_year(result))
            for name, result in zip(laid_out.columns, comparison.all_results, strict=True)
        ],
        "assemblies": assemblies_told(comparison.all_results),
        "year_built": project.file.year_built,
        "zone": comparison.house.climate.iecc_zone,
        "method_version": METHOD_VERSION,
    }


Picture = tuple[str, Sequence[str], VapourDrawing]


def _pictures(judged: Sequence[Sequence[Finding]], names: Sequence[str]) -> list[Picture]:
    """Assemblies in which water condenses, each drawn once under the first column that has it."""
    drawn: dict[tuple[object, ...], Picture] = {}
    for name, findings in zip(names, judged, strict=True):
        for finding in findings:
            if finding.picture is not None and finding.picture.water:
                alike = (finding.components, finding.picture.water)
                if alike not in drawn:
                    drawing = vapour_drawing(finding.picture)
                    drawn[alike] = (name, finding.components, drawing)
    return list(drawn.values())


def _drifts(comparison: Comparison, names: Sequence[str]) -> dict[str, DriftDrawing]:
    """What happens in a mean January and July when the power fails."""
    cuts = [power_cut(result) for result in comparison.all_results]
    house = comparison.house
    return {
        "winter_drift": drift_drawing(
            names, [cut.winter_mean for cut in cuts], COOL_LIMITS, [float(house.heating_set_point)]
        ),
        "summer_drift": drift_drawing(
            names, [cut.summer_mean for cut in cuts], WARM_LIMITS, [float(house.cooling_set_point)]
        ),
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
