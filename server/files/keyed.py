"""Places in a stored house, by permanent keys: `components/3f…/area`. They outlive renaming.

A document here is what `HouseFile.as_stored` gives: the house file with a key in every part.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any
from urllib.parse import quote, unquote

Document = dict[str, Any]
_KEY = re.compile(r"[0-9a-f]{32}\Z")


class Gone(LookupError):
    """The part of the house that a place steps into is not there, or no longer."""


def key_of(part: Any) -> str | None:
    """The permanent key of a part; None for what has none, also where something is named “key”."""
    key = part.get("key") if isinstance(part, dict) else None
    return key if isinstance(key, str) and _KEY.match(key) else None


def place_of(*steps: str) -> str:
    """Steps as one place; a step may be any text."""
    return "/".join(quote(step, safe=" '\"(),.:+") for step in steps)


def split(place: str) -> list[str]:
    """The steps of a place."""
    return [unquote(step) for step in place.split("/")]


def value_at(document: Document, place: str) -> Any:
    """The value at a place; None where the last step holds nothing. Raises: Gone."""
    holder, last = _holder(document, split(place))
    step = _inner(holder, last)
    if isinstance(holder, list):
        return holder[step]
    return holder.get(step)


def set_value(document: Document, place: str, value: Any) -> None:
    """Put a value at a place, in this document; None takes it away. Raises: Gone."""
    holder, last = _holder(document, split(place), make=value is not None)
    step = _inner(holder, last)
    if isinstance(holder, list) or value is not None:
        if value is None:
            del holder[step]
        else:
            holder[step] = value
    else:
        holder.pop(step, None)


def part_at(document: Document, *steps: str) -> Document:
    """The part of the house at some steps. Raises: Gone."""
    part = value_at(document, place_of(*steps))
    if not isinstance(part, dict):
        raise Gone("/".join(steps))
    return part


def name_of(document: Document, collection: str, key: str) -> str:
    """The name under which a part with a key stands in a mapping. Raises: Gone."""
    for name, part in document.get(collection, {}).items():
        if part.get("key") == key:
            return str(name)
    raise Gone(f"{collection}/{key}")


def _holder(document: Document, steps: Sequence[str], *, make: bool = False) -> tuple[Any, str]:
    """What holds the last step. make: objects that are not there yet are put in."""
    here: Any = document
    for step in steps[:-1]:
        inner = _inner(here, step)
        if isinstance(here, dict) and inner not in here and make:
            here[inner] = {}
        try:
            here = here[inner]
        except (KeyError, IndexError, TypeError):
            raise Gone("/".join(steps)) from None
    if not isinstance(here, dict | list):
        raise Gone("/".join(steps))
    return here, steps[-1]


def _inner(here: Any, step: str) -> Any:
    """The index or name of what a step means: a part by its key, or else a name."""
    if isinstance(here, list):
        for index, part in enumerate(here):
            if key_of(part) == step:
                return index
        raise Gone(step)
    if isinstance(here, dict):
        for name, part in here.items():
            if key_of(part) == step:
                return name
    return step
