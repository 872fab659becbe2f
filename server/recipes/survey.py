"""A house as found, asked the questions a recipe has."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from server.core.house import OUTDOORS
from server.core.materials import METAL_CONDUCTIVITY
from server.files import house_file as hf
from server.files import seeds
from server.files.building import Project
from server.recipes.zones import Requirement, requirement

# A layer change, a layer or a quantity as the house file writes it.
Json = dict[str, Any]

_GROUND_KINDS = frozenset({"slab", "basement wall", "basement floor"})
# Rooms for cars and the like never come inside the thermal boundary.
_NEVER_INSIDE = re.compile(r"\b(garage|carport|porch|shed)s?\b", re.IGNORECASE)
_WET = re.compile(r"\b(wet|damp|moist|water|leak\w*|seep\w*|flood\w*|puddle\w*)\b", re.IGNORECASE)
_DRY = re.compile(r"(?<!not )(?<!never )\bdry\b", re.IGNORECASE)
_FRAMING = ("softwood", "spruce-pine-fir framing")


@dataclass(frozen=True, slots=True)
class Survey:
    """The project a recipe works from."""

    project: Project

    @property
    def file(self) -> hf.HouseFile:
        """The house file."""
        return self.project.file

    @property
    def wanted(self) -> Requirement:
        """What the code asks for where the house stands."""
        return requirement(self.project.house.climate.iecc_zone)

    @property
    def inside(self) -> frozenset[str]:
        """The spaces inside the thermal boundary as found."""
        return frozenset(name for name, space in self.file.spaces.items() if space.inside)

    def layers(self, component: hf.ComponentEntry) -> list[hf.LayerEntry]:
        """The layers of a component; none where only its U is known."""
        if component.assembly is None:
            return []
        return list(self.file.assemblies[component.assembly].layers or [])

    def bounding(self, inside: frozenset[str]) -> Iterator[hf.ComponentEntry]:
        """The components between the spaces inside and all else."""
        for component in self.file.components:
            if component.from_ in inside and component.to not in inside:
                yield component

    def conductivity(self, material: str) -> float:
        """Of a material of the file or of the seed table, W/(m K)."""
        own = self.file.materials.get(material)
        if own is not None:
            return own.conductivity.value
        return float(seeds.materials()[material].conductivity)

    @property
    def framing(self) -> str | None:
        """A wood to frame with; None where the file has made metal of every one."""
        fit = (name for name in _FRAMING if self.conductivity(name) <= METAL_CONDUCTIVITY)
        return next(fit, None)

    @property
    def attics(self) -> tuple[str, ...]:
        """Buffers under a roof of their own, above or beside a space inside."""
        return tuple(
            name
            for name in self._buffers_beside_inside()
            if self.roofs_of(name) and not self._meets_ground(name)
        )

    @property
    def basements(self) -> tuple[str, ...]:
        """Buffers in the ground, below or beside a space inside."""
        return tuple(
            name
            for name in self._buffers_beside_inside()
            if self._meets_ground(name) and not self.roofs_of(name)
        )

    def parts_of(self, space: str) -> list[hf.ComponentEntry]:
        """The components whose warm side a space is."""
        return [component for component in self.file.components if component.from_ == space]

    def roofs_of(self, space: str) -> list[hf.ComponentEntry]:
        """The roofs between a space and outdoors."""
        return [
            component
            for component in self.parts_of(space)
            if component.kind == "roof" and component.to == OUTDOORS
        ]

    def is_wet(self, space: str) -> bool:
        """Whether a wall or the floor of a space was found wet."""
        kinds = _GROUND_KINDS | {"wall"}
        return any(
            bool(_WET.search(words)) and not _DRY.search(words)
            for component in self.parts_of(space)
            if component.kind in kinds
            for words in component.condition or []
        )

    def _buffers_beside_inside(self) -> Iterator[str]:
        inside = self.inside
        sides = [{component.from_, component.to} for component in self.file.components]
        for name, space in self.file.spaces.items():
            if space.inside or _NEVER_INSIDE.search(name):
                continue
            if any(name in pair and pair & inside for pair in sides):
                yield name

    def _meets_ground(self, space: str) -> bool:
        return any(component.kind in _GROUND_KINDS for component in self.parts_of(space))


def assumed(figure: str | float) -> Json:
    """A figure that the recipe assumed."""
    return {"value": figure, "basis": "default"}
