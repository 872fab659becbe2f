"""What the pages of a house's strategies show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from server.core.evaluate import Result, evaluate
from server.core.house import OPENINGS, Kind
from server.core.strategy import Strategy, apply
from server.crew.before import remarkable
from server.drawings.vapour_lines import VapourDrawing
from server.files.house_file import (
    AssemblyEntry,
    LayerChangeEntry,
    StrategyEntry,
)
from server.files.keyed import Gone, place_of
from server.finding_words.side_by_side import FindingRow
from server.pages.house.context import (
    OpenHouse,
    Totals,
    explained_in_short,
    explained_part,
    findings_of,
    layer_fields,
    vapour_view,
)
from server.pages.house.section_view import section_view
from server.recipes.words import change_in_words, strategy_in_words


@dataclass(frozen=True, slots=True)
class StrategyLine:
    """A strategy in a list; figures None where it does not fit the house."""

    key: str
    name: str
    recipe: str
    words: tuple[str, ...]
    done: list[Done]
    totals: Totals | None
    heat_loss_change: float | None
    heating_change: float | None


@dataclass(frozen=True, slots=True)
class Done:
    """What a strategy does alike to some components: keys and names, words, R in m2 K/W."""

    components: list[tuple[str, str]]
    conditions: list[str]
    words: tuple[str, ...]
    before: float
    after: float | None


def strategies_page(opened: OpenHouse) -> dict[str, Any]:
    """Every strategy in words and two figures."""
    lines = []
    for entry in opened.house.strategies:
        result = result_of(opened, entry.name)
        totals = None if result is None else Totals.of(result)
        lines.append(
            StrategyLine(
                key=entry.key or "",
                name=entry.name,
                recipe=entry.recipe,
                words=strategy_in_words(entry, opened.house),
                done=done_to_components(opened, entry, result),
                totals=totals,
                heat_loss_change=_change(totals, opened),
                heating_change=_heating_change(totals, opened),
            )
        )
    return {"lines": lines}


def _change(totals: Totals | None, opened: OpenHouse) -> float | None:
    return None if totals is None else totals.change_from(opened.totals)


def _heating_change(totals: Totals | None, opened: OpenHouse) -> float | None:
    before = opened.totals.heating
    return None if totals is None or not before else totals.heating / before - 1.0


def result_of(opened: OpenHouse, name: str) -> Result | None:
    """The result under a strategy; None where it does not fit."""
    for strategy in opened.survey.strategies:
        if strategy.name == name:
            return evaluate(apply(strategy, opened.survey.house))
    return None


def core_strategy(opened: OpenHouse, name: str) -> Strategy:
    """A strategy that fits the house, as the core knows it."""
    return next(each for each in opened.survey.strategies if each.name == name)


def _vapour(
    opened: OpenHouse, place: int, name: str, result: Result | None
) -> VapourDrawing | None:
    if result is None:
        return None
    return vapour_view(opened, place, core_strategy(opened, name), result)


def _findings(
    opened: OpenHouse, name: str, result: Result | None, component: str | None = None
) -> list[FindingRow] | None:
    if result is None:
        return None
    return findings_of(opened, core_strategy(opened, name), result, component)


def strategy_entry(opened: OpenHouse, key: str) -> StrategyEntry:
    """A strategy of the house. Raises: Gone."""
    for entry in opened.house.strategies:
        if entry.key == key:
            return entry
    raise Gone(key)


def strategy_page(opened: OpenHouse, key: str) -> dict[str, Any]:
    """One strategy: what it does once, and what it does to each component."""
    entry = strategy_entry(opened, key)
    result = result_of(opened, entry.name)
    totals = None if result is None else Totals.of(result)
    one = opened.fields
    steps = ("strategies", key)
    buffers = [name for name, space in opened.house.spaces.items() if not space.inside]
    leakage = ("ach50", "cfm50", "air_changes")
    given = [name for name in leakage if getattr(entry, name) is not None] or [
        name for name in leakage if getattr(opened.house.air, name) is not None
    ]
    return {
        "entry": entry,
        "strategy_key": key,
        "own": one.of(*steps, names=("name",)),
        "whole": [
            *one.of(*steps, names=given),
            *one.of(*steps, "ventilation", names=("flow", "heat_recovery", "balanced")),
        ],
        "buffers": [(name, name in (entry.inside or [])) for name in buffers],
        "psi": [
            (junction, one.one(*steps, "psi", junction.name, label=junction.name))
            for junction in opened.house.junctions
        ],
        "words": strategy_in_words(entry, opened.house),
        "done": done_to_components(opened, entry, result),
        "untouched": [
            (component.key, component.name, remarkable([component]))
            for component in opened.house.components
            if entry.change_of(component) is None and component.name not in (entry.openings or {})
        ],
        "findings": _findings(opened, entry.name, result),
        "strategy_totals": totals,
        "strategy_explained": [] if result is None else explained_in_short(result),
        "heat_loss_change": _change(totals, opened),
    }


def done_to_components(
    opened: OpenHouse, entry: StrategyEntry, result: Result | None
) -> list[Done]:
    """What a strategy does; components that are built and changed alike stand together."""
    made: dict[Any, Done] = {}
    for index, component in enumerate(opened.house.components):
        change = entry.change_of(component)
        if change is None:
            continue
        words = change_in_words(change, assembly_found(opened, component.assembly))
        before = float(opened.result.components[index].resistance)
        after = None if result is None else float(result.components[index].resistance)
        alike = made.setdefault(
            (words, round(before, 4), after and round(after, 4)), Done([], [], words, before, after)
        )
        alike.components.append((component.key or "", component.name))
        alike.conditions.extend(
            each for each in remarkable([component]) if each not in alike.conditions
        )
    return list(made.values())


def assembly_found(opened: OpenHouse, name: str | None) -> AssemblyEntry | None:
    """The assembly a component was found with."""
    return opened.house.assemblies.get(name or "")


def change_page(opened: OpenHouse, key: str, component_key: str) -> dict[str, Any]:
    """What one strategy does to one component, to be edited."""
    entry = strategy_entry(opened, key)
    component = opened.component(component_key)
    result = result_of(opened, entry.name)
    place = [each.key for each in opened.house.components].index(component_key)
    context = {
        "entry": entry,
        "strategy_key": key,
        "component": component,
        "conditions": remarkable([component]),
        "found": opened.document.get("assemblies", {}).get(component.assembly or ""),
        "before": opened.part(component_key),
        "after": None if result is None else float(result.components[place].resistance),
        "figures_explained": [] if result is None else explained_part(result, place),
        "section": None if result is None else section_view(result, place, opened.units),
        "vapour": _vapour(opened, place, entry.name, result),
        "findings": _findings(opened, entry.name, result, component.name),
        "change": None,
        "of_kind": component.kind if component.kind in entry.changes else None,
        "assemblies": list(opened.house.assemblies),
    }
    if Kind(component.kind) in OPENINGS:
        steps = ("strategies", key, "openings", component.name)
        names = ("u_value", "storm_u_value", "shgc")
        context["opening_fields"] = opened.fields.of(*steps, names=names)
    target, change = entry.target_of(component), entry.change_of(component)
    if target is None or change is None:
        return context
    context |= {
        "change": change,
        "target": target,
        "own": target == component.name,
        "words": change_in_words(change, assembly_found(opened, component.assembly)),
    }
    if isinstance(change, LayerChangeEntry):
        context |= _layer_change(opened, key, target)
    return context


def _layer_change(opened: OpenHouse, key: str, target: str) -> dict[str, Any]:
    steps = ("strategies", key, "changes", target)
    strategy = next(s for s in opened.document["strategies"] if s["key"] == key)
    change = strategy["changes"][target]
    sides = []
    for side in ("inside", "outside"):
        holder = (*steps, side)
        layers = [
            (layer, *layer_fields(opened.fields, holder, layer)) for layer in change.get(side, [])
        ]
        sides.append((side, place_of(*holder), layers))
    names = ("remove", "fill", "fill_thickness", "fill_label_resistance")
    return {"fields": opened.fields.of(*steps, names=names), "sides": sides}
