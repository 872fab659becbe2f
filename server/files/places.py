"""Places in a JSON document, written as people read them: `components[3].area`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

Step = str | int

_PLAIN_KEY = re.compile(r"[A-Za-z_][A-Za-z0-9_]*\Z")
_STEP = re.compile(
    r"\.?([A-Za-z_][A-Za-z0-9_]*)|\[(\d+)\]|\[('(?:[^'\\]|\\.)*'|\"(?:[^\"\\]|\\.)*\")\]"
)
_ABSENT = object()


def written(steps: Iterable[Step]) -> str:
    """Steps as one text: plain keys after dots, other keys and indices in brackets."""
    text = ""
    for step in steps:
        if isinstance(step, int):
            text += f"[{step}]"
        elif _PLAIN_KEY.match(step):
            text += f".{step}" if text else step
        else:
            text += f"[{step!r}]"
    return text


def joined(place: str, further: str | None) -> str:
    """A place further in."""
    if not further:
        return place
    return f"{place}{further}" if not place or further.startswith("[") else f"{place}.{further}"


def steps_of(place: str) -> list[Step]:
    """The steps of a written place."""
    steps: list[Step] = []
    for match in _STEP.finditer(place):
        key, index, quoted = match.groups()
        if index is not None:
            steps.append(int(index))
        elif quoted is not None:
            steps.append(re.sub(r"\\(.)", r"\1", quoted[1:-1]))
        else:
            steps.append(key)
    return steps


def found_at(document: Any, place: str) -> str | None:
    """What a document holds at a place, shortened for a message; None where it holds nothing."""
    here = document
    for step in steps_of(place):
        if isinstance(here, dict) and "value" in here and step != "value" and step not in here:
            here = here["value"]
        if isinstance(here, dict):
            here = here.get(step, _ABSENT)
        elif isinstance(here, list) and isinstance(step, int) and step < len(here):
            here = here[step]
        else:
            return None
        if here is _ABSENT:
            return None
    if isinstance(here, dict) and "value" in here:
        here = here["value"]
    return shown(here)


def shown(value: Any) -> str | None:
    """A value as a message quotes it; containers are not quoted."""
    if isinstance(value, dict | list):
        return None
    if isinstance(value, str):
        short = value if len(value) <= 60 else value[:60] + "…"
        return "“" + "".join(c if c.isprintable() else "�" for c in short) + "”"
    return {None: "null", True: "true", False: "false"}.get(value, repr(value)[:60])
