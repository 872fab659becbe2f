"""The main assemblies of a house: their real R, and the inside surface on the design night."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from gettext import gettext as _
from typing import Any

from server.core.comparison import Comparison
from server.core.evaluate import Result
from server.core.explain.base import Explanation
from server.core.explain.surface import inside_surface
from server.core.house import INNER_KINDS, OPENINGS, Component, Kind
from server.sheet import MAIN_SHARE, number

_OPENING_NAMES = {Kind.WINDOW: "Windows", Kind.DOOR: "Doors", Kind.SKYLIGHT: "Skylights"}


def main_assemblies(comparison: Comparison) -> list[dict[str, Any]]:
    """One entry for each main construction found, those that lose most first; figures by option."""
    found = comparison.as_found
    groups: dict[Hashable, list[int]] = {}
    for index, each in enumerate(found.components):
        part = each.component
        if part.kind not in INNER_KINDS:
            groups.setdefault(_alike(part), []).append(index)
    whole = sum(float(each.conductance) for each in found.components)
    made = []
    for members in groups.values():
        conductance = sum(float(found.components[index].conductance) for index in members)
        if conductance >= MAIN_SHARE * whole:
            made.append((conductance, _assembly(comparison, members)))
    return [each for _conductance, each in sorted(made, key=lambda pair: -pair[0])]


def _alike(part: Component) -> Hashable:
    """What parts of one row have in common: how they are built; of openings only the kind."""
    return part.kind if part.kind in OPENINGS else (id(part.construction), part.kind)


def _name(parts: Sequence[Component]) -> str:
    """In the owner's words. Options stand beside it, so "as found" would be said of all."""
    first = parts[0]
    if first.kind in OPENINGS:
        return _(_OPENING_NAMES[first.kind])
    built_as = getattr(first.construction, "name", None)
    name: str = first.name if built_as is None or len(parts) == 1 else built_as
    return name.removesuffix(" as found") or name


def _assembly(comparison: Comparison, members: Sequence[int]) -> dict[str, Any]:
    parts = [comparison.as_found.components[index].component for index in members]
    return {
        "name": _name(parts),
        "kind": parts[0].kind.value,
        "components": [part.name for part in parts],
        "by_option": [_figures(result, members) for result in comparison.all_results],
    }


def _figures(result: Result, members: Sequence[int]) -> dict[str, Any]:
    """Area over the sum of U A: resistances themselves are never averaged."""
    parts = [result.components[index] for index in members]
    if not any(float(part.conductance) for part in parts):
        return {
            "indoors": True,
            "resistance": None,
            "label_resistance": None,
            "surface_temperature": None,
        }
    area = sum(float(part.component.area) for part in parts)
    resistance = area / sum(float(part.u_value) * float(part.component.area) for part in parts)
    labels = {number(part.label_resistance) for part in parts}
    surface = coldest_surface(result, members)
    return {
        "indoors": False,
        "resistance": resistance,
        "label_resistance": labels.pop() if len(labels) == 1 else None,
        "surface_temperature": None if surface is None else float(surface.value),
    }


def coldest_surface(result: Result, members: Sequence[int]) -> Explanation | None:
    """The coldest inside surface of some components; None where none faces the design night."""
    surfaces = [inside_surface(result, index) for index in members]
    known = [surface for surface in surfaces if surface is not None]
    return min(known, key=lambda surface: float(surface.value)) if known else None
