"""The forms that add a part to a house: what was typed, what was wrong, what can be chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from server.core.house import Kind
from server.files.house_file import HouseFile
from server.files.seeds import material_rows
from server.pages.house.context import OpenHouse
from server.survey.constructions import constructions_for


@dataclass(frozen=True, slots=True)
class Adding:
    """A form as it was sent, and words for its fields. An empty one was not sent yet."""

    form: str = ""
    values: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, str] = field(default_factory=dict)


def adding_context(opened: OpenHouse, template: str) -> dict[str, Any]:
    """What the forms of a page offer."""
    offered: dict[str, Any] = {"adding": Adding()}
    if template in ("assembly", "change"):
        offered["materials"] = material_names(opened.house)
    if template in ("overview", "assemblies"):
        offered["kinds"] = [kind.value for kind in Kind]
        offered["constructions"] = usual_constructions(opened.house.year_built)
    return offered


def usual_constructions(year_built: int | None) -> list[tuple[str, list[str]]]:
    """Constructions by kind of component, those usual in the year first."""
    by_kind = [(kind.value, constructions_for(kind.value, year_built)) for kind in Kind]
    return [(kind, [each.name for each in fitting]) for kind, fitting in by_kind if fitting]


def material_names(house: HouseFile) -> list[str]:
    """Every material that a layer of a house can be of."""
    return [*house.materials, *(row.name for row in material_rows())]
