"""A part of a house gets another name, and all that speak of it follow."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from server.actions.structure import without_keys
from server.files.keyed import Document, name_of, part_at, set_value, split


def rename(document: Document, place: str, name: Any) -> None:
    """Give the part whose name stands at a place another one. Raises: Gone."""
    steps = split(place)
    follow = _FOLLOW.get(steps[0]) if len(steps) == 3 else None
    if follow is None:
        _rename_layer(document, steps, place, name)
        return
    collection, key, _field = steps
    old: str | None
    if isinstance(document.get(collection), dict):
        old = name_of(document, collection, key)
        if name in document[collection] and name != old:
            raise NameInUse(name)
        document[collection] = _moved(document[collection], old, name)
    else:
        old = part_at(document, collection, key).get("name")
        set_value(document, place, name)
    if isinstance(old, str) and name:
        follow(document, old, name)


class NameInUse(Exception):
    """Another part of the same list has this name."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


def _moved(mapping: Document, old: str, new: str) -> Document:
    """The same mapping with one entry under another name, at its place."""
    return {(new if name == old else name): part for name, part in mapping.items()}


def _swap(holder: Any, key: Any, old: str, new: str) -> None:
    if holder.get(key) == old:
        holder[key] = new


def _space(document: Document, old: str, new: str) -> None:
    for part in [*document.get("components", []), *document.get("junctions", [])]:
        _swap(part, "from", old, new)
        _swap(part, "to", old, new)
    for owner in [document, *document.get("strategies", [])]:
        for plant in ("heating", "cooling"):
            _swap(owner.get(plant) or {}, "ducts_in", old, new)
    for strategy in document.get("strategies", []):
        if strategy.get("inside"):
            strategy["inside"] = [new if each == old else each for each in strategy["inside"]]
        if strategy.get("spaces"):
            strategy["spaces"] = _moved(strategy["spaces"], old, new)


def _assembly(document: Document, old: str, new: str) -> None:
    for part in document.get("components", []):
        _swap(part, "assembly", old, new)
    for strategy in document.get("strategies", []):
        for target in strategy.get("changes") or {}:
            _swap(strategy["changes"], target, old, new)


def _component(document: Document, old: str, new: str) -> None:
    for strategy in document.get("strategies", []):
        for sort in ("changes", "openings", "edge_insulation"):
            if strategy.get(sort):
                strategy[sort] = _moved(strategy[sort], old, new)


def _junction(document: Document, old: str, new: str) -> None:
    for strategy in document.get("strategies", []):
        if strategy.get("psi"):
            strategy["psi"] = _moved(strategy["psi"], old, new)


def _material(document: Document, old: str, new: str) -> None:
    for layer in _layers(document):
        _swap(layer, "material", old, new)
        for role in ("framing", "fill"):
            _swap(layer.get("framed") or {}, role, old, new)
    for change in _layer_changes(document):
        _swap(change, "fill", old, new)
        _swap_in_removals(change, old, new)


def _strategy(_document: Document, _old: str, _new: str) -> None:
    """Nothing speaks of a strategy by its name."""


def _rename_layer(document: Document, steps: list[str], place: str, name: Any) -> None:
    """Removals of a layer of the assembly found follow its name."""
    old = part_at(document, *steps[:-1]).get("name")
    set_value(document, place, name or None)
    if steps[0] != "assemblies" or not old or not name:
        return
    assembly = name_of(document, "assemblies", steps[1])
    for strategy in document.get("strategies", []):
        changes = strategy.get("changes", {})
        _rename_in_removals(document["components"], assembly, changes, old, name)


def _rename_in_removals(
    components: list[Document], assembly: str, changes: Document, old: str, new: str
) -> None:
    """Where a change of a kind meets other assemblies too, those built so get one of their own."""
    by_kind = [each for each in components if each["name"] not in changes]
    for part in components:
        target = part["name"] if part["name"] in changes else part["kind"]
        change = changes.get(target)
        if part.get("assembly") != assembly or not isinstance(change, dict):
            continue
        alike = [each.get("assembly") for each in by_kind if each["kind"] == target]
        if part in by_kind and set(alike) != {assembly} and old in change.get("remove", []):
            change = changes[part["name"]] = without_keys(change)
        _swap_in_removals(change, old, new)


def _swap_in_removals(change: Document, old: str, new: str) -> None:
    if change.get("remove"):
        change["remove"] = [new if each == old else each for each in change["remove"]]


def _layer_changes(document: Document) -> list[Document]:
    return [
        change
        for strategy in document.get("strategies", [])
        for change in (strategy.get("changes") or {}).values()
        if isinstance(change, dict)
    ]


def _layers(document: Document) -> list[Document]:
    found = [
        layer
        for assembly in document.get("assemblies", {}).values()
        for layer in assembly.get("layers") or []
    ]
    for change in _layer_changes(document):
        found += [*(change.get("inside") or []), *(change.get("outside") or [])]
    return found


_FOLLOW: dict[str, Callable[[Document, str, str], None]] = {
    "spaces": _space,
    "assemblies": _assembly,
    "components": _component,
    "junctions": _junction,
    "materials": _material,
    "strategies": _strategy,
}
