"""Parts of a house are added, removed, copied and put in another order. All work on a document."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from typing import Any

from server.files.keyed import Document, Gone, key_of, name_of, part_at, place_of, value_at


class StillUsed(Exception):
    """A part cannot go while others stand on it; users: their names."""

    def __init__(self, name: str, users: Iterable[str]) -> None:
        super().__init__(name)
        self.name = name
        self.users = tuple(users)


def free_name(wanted: str, taken: Iterable[str]) -> str:
    """The name wanted, or with a number where it is taken."""
    taken = set(taken)
    numbered = (f"{wanted} {number}" for number in itertools.count(2))
    return next(name for name in itertools.chain([wanted], numbered) if name not in taken)


def without_keys(part: Any) -> Any:
    """A part without its permanent keys, to be put in anew."""
    if isinstance(part, dict):
        own = key_of(part)
        return {n: without_keys(each) for n, each in part.items() if n != "key" or each != own}
    if isinstance(part, list):
        return [without_keys(each) for each in part]
    return part


# Layers


def add_layer(document: Document, holder: list[str], layer: Document, position: int) -> None:
    """Put a layer into a list of layers. position: from inside, -1 outermost. Raises: Gone."""
    part = part_at(document, *holder[:-1])
    layers = part.setdefault(holder[-1], [])
    layers.insert(position if 0 <= position < len(layers) else len(layers), layer)


def move_layer(document: Document, holder: list[str], key: str, by: int) -> None:
    """Move a layer outward or inward. Raises: Gone."""
    layers = _layers(document, holder)
    index = _index(layers, key)
    layer = layers.pop(index)
    layers.insert(max(0, min(index + by, len(layers))), layer)


def remove_layer(document: Document, holder: list[str], key: str) -> None:
    """Take a layer out. Raises: Gone."""
    layers = _layers(document, holder)
    del layers[_index(layers, key)]


def _layers(document: Document, holder: list[str]) -> list[Document]:
    layers = value_at(document, place_of(*holder))
    if not isinstance(layers, list):
        raise Gone("/".join(holder))
    return layers


def _index(parts: list[Document], key: str) -> int:
    for index, part in enumerate(parts):
        if part.get("key") == key:
            return index
    raise Gone(key)


# Parts


def copy_component(document: Document, key: str) -> str:
    """Put a copy of a component behind it; the result is the copy's name. Raises: Gone."""
    components = document["components"]
    index = _index(components, key)
    copied: Document = without_keys(components[index])
    copied["name"] = free_name(copied["name"], (each["name"] for each in components))
    components.insert(index + 1, copied)
    return str(copied["name"])


def remove_component(document: Document, key: str) -> None:
    """Take a component out, and what strategies do to it by name. Raises: Gone."""
    components = document["components"]
    index = _index(components, key)
    name = components.pop(index)["name"]
    for strategy in document.get("strategies", []):
        for sort in ("changes", "openings", "edge_insulation"):
            strategy.get(sort, {}).pop(name, None)


def remove_junction(document: Document, key: str) -> None:
    """Take a junction out, and what strategies make of it. Raises: Gone."""
    junctions = document.get("junctions", [])
    index = _index(junctions, key)
    name = junctions.pop(index)["name"]
    for strategy in document.get("strategies", []):
        strategy.get("psi", {}).pop(name, None)


def remove_space(document: Document, key: str) -> None:
    """Take a space out. Raises: Gone, StillUsed."""
    name = name_of(document, "spaces", key)
    parts = [*document["components"], *document.get("junctions", [])]
    users = [part["name"] for part in parts if name in (part["from"], part["to"])]
    if users:
        raise StillUsed(name, users)
    del document["spaces"][name]
    for owner in [document, *document.get("strategies", [])]:
        for plant in ("heating", "cooling"):
            if owner.get(plant, {}).get("ducts_in") == name:
                del owner[plant]["ducts_in"]
    for strategy in document.get("strategies", []):
        if name in strategy.get("inside", []):
            strategy["inside"].remove(name)
        strategy.get("spaces", {}).pop(name, None)


def remove_assembly(document: Document, key: str) -> None:
    """Take an assembly out. Raises: Gone, StillUsed."""
    name = name_of(document, "assemblies", key)
    users = [part["name"] for part in document["components"] if part.get("assembly") == name]
    users += [
        strategy["name"]
        for strategy in document.get("strategies", [])
        if name in [change for change in strategy.get("changes", {}).values() if change == name]
    ]
    if users:
        raise StillUsed(name, users)
    del document["assemblies"][name]


def copy_assembly(document: Document, key: str) -> str:
    """Add a copy of an assembly; the result is its name. Raises: Gone."""
    name = name_of(document, "assemblies", key)
    copied = free_name(name, document["assemblies"])
    document["assemblies"][copied] = without_keys(document["assemblies"][name])
    return copied


def remove_strategy(document: Document, key: str) -> None:
    """Take a strategy out. Raises: Gone."""
    strategies = document.get("strategies", [])
    del strategies[_index(strategies, key)]


def copy_strategy(document: Document, key: str) -> str:
    """Add a copy of a strategy, which is then the user's own. Raises: Gone."""
    strategies = document.get("strategies", [])
    copied: Document = without_keys(strategies[_index(strategies, key)])
    copied["name"] = free_name(copied["name"], (each["name"] for each in strategies))
    copied["recipe"] = "own"
    strategies.append(copied)
    return str(copied["name"])


# What a strategy does to one component


class ReachedByKind(Exception):
    """A component without an assembly cannot be kept from what is done to all of its kind."""


def set_change(document: Document, strategy: str, component: str, change: Any) -> None:
    """Give a component a change of its own; one of its kind that then reaches none goes.

    Raises: Gone.
    """
    part, changes = _changes(document, strategy, component)
    changes[part["name"]] = change
    reached = (
        each["name"] not in changes
        for each in document["components"]
        if each["kind"] == part["kind"]
    )
    if part["kind"] in changes and part["name"] != part["kind"] and not any(reached):
        del changes[part["kind"]]


def own_change(document: Document, strategy: str, component: str) -> None:
    """Give a component what is done to all of its kind as a change of its own. Raises: Gone."""
    part, changes = _changes(document, strategy, component)
    set_change(document, strategy, component, without_keys(changes.get(part["kind"])))


def follow_kind(document: Document, strategy: str, component: str) -> None:
    """Drop a component's own change, so that what is done to its kind, if any, reaches it.

    Raises: Gone.
    """
    part, changes = _changes(document, strategy, component)
    changes.pop(part["name"], None)


def leave_as_found(document: Document, strategy: str, component: str) -> None:
    """Keep a strategy off a component: no change, or where its kind has one, its own assembly.

    Raises: Gone, ReachedByKind.
    """
    part, changes = _changes(document, strategy, component)
    if part["kind"] not in changes or part["name"] == part["kind"]:
        changes.pop(part["name"], None)
    elif part.get("assembly") is None:
        raise ReachedByKind
    else:
        set_change(document, strategy, component, part["assembly"])


def _changes(document: Document, strategy: str, component: str) -> tuple[Document, Document]:
    """A component, and the changes of a strategy by name."""
    changes = part_at(document, "strategies", strategy).setdefault("changes", {})
    return part_at(document, "components", component), changes
