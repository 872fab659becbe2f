"""The comparison file, `warmside-comparison/1`: names end in a unit, unknown figures are null."""

from __future__ import annotations

import json
from typing import Any

from server.core.arrays import Array, Real
from server.core.comparison import Comparison
from server.core.design_load import cooling_load, heating_load
from server.core.evaluate import METHOD_VERSION, ComponentResult, FuelUse, Result
from server.core.findings.base import Finding
from server.core.power_cut import Drift, power_cut
from server.files.building import Project
from server.finding_words.telling import told

FORMAT = "warmside-comparison/1"
AS_FOUND = "as found"


def comparison_document(project: Project, comparison: Comparison | None = None) -> dict[str, Any]:
    """The comparison of one house, without draws, as plain data for JSON.

    comparison: where it was worked out before. Raises: BadFile where the house has no balance.
    """
    comparison = comparison or project.compare()
    judged = project.judge(comparison)
    names: list[tuple[str, str | None]] = [(AS_FOUND, None)]
    names += [(strategy.name, strategy.recipe) for strategy in comparison.strategies]
    columns = zip(names, comparison.all_results, judged, strict=True)
    return {
        "format": FORMAT,
        "house": comparison.house.name,
        "climate": comparison.house.climate.name,
        "method_version": METHOD_VERSION,
        "results": [
            _result(name, recipe, result) | {"findings": [_finding(each) for each in findings]}
            for (name, recipe), result, findings in columns
        ],
    }


def comparison_json(project: Project) -> str:
    """A comparison as the text of a comparison file. Raises: BadFile."""
    return json.dumps(comparison_document(project), indent=1, allow_nan=False)


def _result(name: str, recipe: str | None, result: Result) -> dict[str, Any]:
    return {
        "strategy": name,
        "recipe": recipe,
        "k_outdoors_w_per_k": _one(result.to_outdoors),
        "k_ground_w_per_k": _one(result.to_ground),
        "k_air_w_per_k": _one(result.air),
        "ach50_per_hour": _one(result.air_changes_at_50_pa),
        "components": [_component(each) for each in result.components],
        "junctions": [
            {
                "name": each.name,
                "psi_l_w_per_k": _one(each.conductance),
                "heating_share_kwh": _one(each.heating_share_kwh),
            }
            for each in result.junctions
        ],
        "air_heating_share_kwh": _one(result.air_heating_share_kwh),
        "months": _months(result),
        "heating_load_kwh": _one(result.heating_load_kwh),
        "cooling_load_kwh": _one(result.cooling_load_kwh),
        "latent_load_kwh": _one(result.latent_load_kwh),
        "design_heating_w": _design_heating(result),
        "design_cooling_w": _design_cooling(result),
        "power_cut": _power_cut(result),
        "fuel": [_fuel(use) for use in result.fuels],
        "annual_cost_usd": _one(result.annual_cost),
        "carbon_kg": _one(result.carbon),
    }


def _finding(finding: Finding) -> dict[str, Any]:
    """Its sentences are in inch-pound units; component is None for several, or the whole house."""
    words = told(finding, "ip")
    parts = finding.components
    return {
        "code": finding.code,
        "outcome": finding.outcome,
        "severity": words.severity,
        "component": parts[0] if len(parts) == 1 else None,
        "components": list(parts),
        "text": words.text,
        "mend": words.mend or None,
        "figure": words.figure or None,
        "limit": words.limit or None,
        "source": words.source,
    }


def _design_heating(result: Result) -> float | None:
    """Heat lost on the design night, without what ducts lose."""
    load = heating_load(result)
    return None if load is None else _one(load.total)


def _design_cooling(result: Result) -> float | None:
    """Heat and moisture to remove on the design day, without what ducts gain."""
    load = cooling_load(result)
    return None if load is None else _one(load.sensible + load.latent)


def _power_cut(result: Result) -> dict[str, dict[str, float] | None]:
    """Start, rest and time constant of each drift; null where its day is not known."""
    cut = power_cut(result)
    return {
        "winter_mean": _drift(cut.winter_mean),
        "winter_design": _drift(cut.winter_design),
        "summer_mean": _drift(cut.summer_mean),
        "summer_design": _drift(cut.summer_design),
    }


def _drift(drift: Drift | None) -> dict[str, float] | None:
    if drift is None:
        return None
    return {
        "start_c": float(drift.start),
        "equilibrium_c": float(drift.equilibrium),
        "time_constant_h": float(drift.time_constant),
    }


def _component(each: ComponentResult) -> dict[str, Any]:
    limits = each.limits
    return {
        "name": each.component.name,
        "u_w_per_m2k": _one(each.u_value),
        "r_m2k_per_w": _one(each.resistance),
        "upper_limit_r_m2k_per_w": None if limits is None else _one(limits.upper),
        "lower_limit_r_m2k_per_w": None if limits is None else _one(limits.lower),
        "label_r_m2k_per_w": _one(each.label_resistance),
        "ua_w_per_k": _one(each.conductance),
        "heating_share_kwh": _one(each.heating_share_kwh),
    }


def _months(result: Result) -> dict[str, list[float]]:
    return {
        "balance_point_c": _twelve(result.heating.balance_point),
        "heating_degree_days_k_d": _twelve(result.heating.degree_days),
        "heating_load_kwh": _twelve(result.heating.load_kwh),
        "cooling_load_kwh": _twelve(result.cooling.load_kwh),
        "latent_load_kwh": _twelve(result.cooling.latent_kwh),
        "gains_w": _twelve(result.gains),
        "ground_temperature_c": _twelve(result.ground_temperature),
    }


def _fuel(use: FuelUse) -> dict[str, Any]:
    return {
        "use": use.use,
        "fuel": use.fuel,
        "kwh": _one(use.energy_kwh),
        "cost_usd": _one(use.cost),
        "carbon_kg": _one(use.carbon),
    }


def _one(value: Real | None) -> float | None:
    return None if value is None else float(value)


def _twelve(values: Array) -> list[float]:
    return [float(value) for value in values]
