"""Strategies are made for a house from what was found."""

from __future__ import annotations

from collections.abc import Sequence

from server.actions.change_house import Changed, change_house
from server.actions.structure import free_name
from server.files.building import build_survey
from server.files.keyed import Document
from server.recipes.making import Recipe, make_strategy
from server.storage.houses import Houses


def make_strategies(houses: Houses, key: str, recipes: Sequence[Recipe], by: str) -> Changed:
    """Add a strategy for each recipe. Raises: NoSuchHouse, BadFile."""
    project = build_survey(houses.load(key, to_change=True).house).project

    def change(document: Document) -> None:
        strategies = document.setdefault("strategies", [])
        for recipe in recipes:
            made = make_strategy(project, recipe)
            strategies.append(made.model_dump(by_alias=True, exclude_none=True, exclude_unset=True))

    return change_house(houses, key, by, change)


def begin_strategy(houses: Houses, key: str, name: str, by: str) -> Changed:
    """Add an empty strategy of one's own. Raises: NoSuchHouse, BadFile."""

    def change(document: Document) -> None:
        strategies = document.setdefault("strategies", [])
        taken = [each["name"] for each in strategies]
        strategies.append({"name": free_name(name, taken), "recipe": "own"})

    return change_house(houses, key, by, change)
