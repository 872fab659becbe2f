"""What a house file holds that nobody measured."""

from __future__ import annotations

from collections.abc import Iterator
from gettext import gettext as _
from typing import Any

STRATEGIES = "strategies"  # what is planned is no survey
_SHOWN = {"guess", "default"}


def unmeasured(document: dict[str, Any]) -> list[dict[str, str]]:
    """Every value as found that is a guess or a usual one: where it stands, and which it is."""
    found = {name: part for name, part in document.items() if name != STRATEGIES}
    return list(_within(found, ()))


def guessed_parts(document: dict[str, Any]) -> set[str]:
    """Names of the assemblies and components that have a guess in them."""
    named: set[str] = set()
    for name, assembly in document.get("assemblies", {}).items():
        if any(each["basis"] == "guess" for each in _within(assembly, ())):
            named.add(name)
    for component in document.get("components", []):
        own = any(each["basis"] == "guess" for each in _within(component, ()))
        if own or component.get("assembly") in named:
            named.add(component["name"])
    return named


def air_is_guessed(document: dict[str, Any]) -> bool:
    """Whether the air leakage as found is a guess."""
    air = document.get("air", {})
    return any(
        isinstance(air.get(name), dict) and air[name].get("basis") == "guess"
        for name in ("ach50", "cfm50", "air_changes")
    )


def _within(part: Any, steps: tuple[str, ...]) -> Iterator[dict[str, str]]:
    if isinstance(part, dict):
        if set(part) == {"value", "basis"}:
            if part["basis"] in _SHOWN:
                yield {"where": _place(steps), "value": str(part["value"]), "basis": part["basis"]}
            return
        for name, each in part.items():
            yield from _within(each, (*steps, name))
    elif isinstance(part, list):
        for number, each in enumerate(part, start=1):
            yield from _within(each, (*steps, _name_of(each, number)))


def _name_of(part: Any, number: int) -> str:
    name = part.get("name") if isinstance(part, dict) else None
    return name if isinstance(name, str) else _("number {number}").format(number=number)


def _place(steps: tuple[str, ...]) -> str:
    return ", ".join(step.replace("_", " ") for step in steps)
