"""Strategies for a house as found, one for each recipe."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Mapping
from typing import Literal, TypeAlias, get_args

from server.files import house_file as hf
from server.files.building import Project
from server.recipes import cavity_only, exterior_continuous, hybrid
from server.recipes.airing import airing
from server.recipes.plan import Plan
from server.recipes.survey import Json, Survey

Recipe: TypeAlias = Literal["cavity-only", "exterior continuous", "hybrid"]
RECIPES: tuple[Recipe, ...] = get_args(Recipe)
_KINDS: frozenset[str] = frozenset(get_args(hf.KindName))

_NAMES: Mapping[Recipe, str] = {
    "cavity-only": "Cavity only",
    "exterior continuous": "Exterior continuous",
    "hybrid": "Hybrid",
}
_PLANS: Mapping[Recipe, Callable[[Survey], Plan]] = {
    "cavity-only": cavity_only.plan,
    "exterior continuous": exterior_continuous.plan,
    "hybrid": hybrid.plan,
}


def make_strategies(project: Project) -> tuple[hf.StrategyEntry, ...]:
    """The three strategies for a house, from what was found; each can be edited by component."""
    return tuple(make_strategy(project, recipe) for recipe in RECIPES)


def make_strategy(project: Project, recipe: Recipe) -> hf.StrategyEntry:
    """The strategy of one recipe. Parts for which it has nothing sensible stay as found."""
    survey = Survey(project)
    plan = _PLANS[recipe](survey)
    taken = {strategy.name for strategy in project.file.strategies}
    document: Json = {
        "name": _free_name(_NAMES[recipe], taken),
        "recipe": recipe,
        "changes": _by_name_only(plan.changes, project.file.components),
    }
    if plan.brought_in:
        document["inside"] = list(plan.brought_in)
    document |= airing(survey, plan.brought_in, plan.tightness)
    if plan.edges:
        document["edge_insulation"] = dict(plan.edges)
    return hf.StrategyEntry.model_validate(document)


def _free_name(name: str, taken: Iterable[str]) -> str:
    taken = set(taken)
    numbered = (f"{name} {number}" for number in itertools.count(2))
    return next(each for each in itertools.chain([name], numbered) if each not in taken)


def _by_name_only(
    changes: Mapping[str, Json], components: Iterable[hf.ComponentEntry]
) -> dict[str, Json | str]:
    """Keep a change under a name like "wall" from acting on every other wall.

    The others are given the assembly they have; where one has none, the change is left out.
    """
    kept: dict[str, Json | str] = dict(changes)
    while True:
        stays: dict[str, Json | str] = {}
        for name in _KINDS & kept.keys():
            others = [part for part in components if part.kind == name and part.name not in kept]
            if any(part.assembly is None or part.name in _KINDS for part in others):
                del kept[name]
                break
            stays |= {part.name: part.assembly for part in others if part.assembly is not None}
        else:
            return kept | stays
