"""What differs between two versions of a house, value by value."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypedDict

from server.files.keyed import Document, key_of

ADDED = "added"
REMOVED = "removed"


class Difference(TypedDict):
    """One value that changed: where, as people read it, from what, to what. None is absent."""

    place: str
    before: str | None
    after: str | None


def differences(before: Document, after: Document) -> list[Difference]:
    """Every difference between two documents with keys (`HouseFile.as_stored`)."""
    return list(_differences("", before, after))


def same(before: Any, after: Any) -> bool:
    """Whether two values are written alike: 3 and 3.0 are not."""
    return bool(before == after) and repr(before) == repr(after)


def _differences(place: str, before: Any, after: Any) -> Iterator[Difference]:
    if same(before, after):
        return
    if _is_quantity(before) or _is_quantity(after):
        yield {"place": place, "before": text_of(before), "after": text_of(after)}
    elif isinstance(before, dict) and isinstance(after, dict):
        yield from _of_mappings(place, before, after)
    elif before is None and key_of(after):
        yield {"place": place, "before": None, "after": ADDED}
    elif after is None and key_of(before):
        yield {"place": place, "before": REMOVED, "after": None}
    elif (_is_section(before) and after is None) or (before is None and _is_section(after)):
        yield from _of_mappings(place, before or {}, after or {})
    elif _keyed_list(before) and _keyed_list(after):
        yield from _of_lists(place, before, after)
    else:
        yield {"place": place, "before": text_of(before), "after": text_of(after)}


def _of_mappings(place: str, before: Document, after: Document) -> Iterator[Difference]:
    renamed = _renamed(before, after)
    for name in dict.fromkeys([*before, *after]):
        if (name == "key" and key_of(before)) or name in renamed.values():
            continue
        here = f"{place}, {name}" if place else str(name)
        if name in renamed:
            yield {"place": place, "before": name, "after": renamed[name]}
            yield from _differences(f"{place}, {renamed[name]}", before[name], after[renamed[name]])
        else:
            yield from _differences(here, before.get(name), after.get(name))


def _renamed(before: Document, after: Document) -> dict[str, str]:
    """Old name to new name of parts that stand under another name and have the same key."""
    now = {key: name for name, part in after.items() if (key := key_of(part))}
    return {
        name: now[key]
        for name, part in before.items()
        if (key := key_of(part)) and now.get(key, name) != name
    }


def _of_lists(place: str, before: list[Any], after: list[Any]) -> Iterator[Difference]:
    was = {part["key"]: part for part in before}
    now = {part["key"]: part for part in after}
    for key in dict.fromkeys([*was, *now]):
        name = _name_of(was.get(key) or now[key])
        here = f"{place}, {name}" if place else name
        yield from _differences(here, was.get(key), now.get(key))
    kept_before = [key for key in was if key in now]
    if kept_before != [key for key in now if key in was]:
        yield {"place": f"{place}, order", "before": None, "after": None}


def _name_of(part: Document) -> str:
    for name in ("name", "material", "air_layer"):
        if name in part:
            return str(part[name])
    return "framing" if "framed" in part else "layer"


def _is_quantity(value: Any) -> bool:
    return isinstance(value, dict) and set(value) == {"value", "basis"}


def _is_section(value: Any) -> bool:
    """Whether a value is a part that stands once, like the energy code, with something in it."""
    return isinstance(value, dict) and bool(value) and not key_of(value)


def _keyed_list(value: Any) -> bool:
    return isinstance(value, list) and all(map(key_of, value))


def text_of(value: Any) -> str | None:
    """A value as a line of text: a quantity as typed with its basis, a part by its name."""
    if value is None:
        return None
    if _is_quantity(value):
        return f"{value['value']} ({value['basis']})"
    if isinstance(value, dict):
        if key_of(value):
            return _name_of(value)
        return ", ".join(str(text_of(each)) for each in value.values())
    if isinstance(value, list):
        return ", ".join(str(text_of(each)) for each in value)
    return str(value)
