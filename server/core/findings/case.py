"""One house to be judged: as found, or after a strategy, with all that rules ask of it."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from server.core.assembly import Layer
from server.core.evaluate import Result
from server.core.findings.code_limits import IECC_2021, CodeLimits
from server.core.findings.indoor_air import Air, Airs, IndoorHumidity
from server.core.findings.layers import layers_of, materials_of
from server.core.findings.observations import Observations, PartSeen
from server.core.house import GROUND, INNER_KINDS, OPENINGS, OUTDOORS, Component, House, Kind
from server.core.materials import Material
from server.core.strategy import Strategy
from server.core.transmittance import films_of

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Zone:
    """A climate zone of the energy code: its number, and the letter of its moisture."""

    number: int
    letter: str

    @property
    def is_marine(self) -> bool:
        """Whether it is a marine zone (C)."""
        return self.letter == "C"


@dataclass(frozen=True, slots=True)
class Site:
    """What is known beside the heat balance: answers of the survey, humidity, the energy code."""

    seen: Observations = field(default_factory=Observations)
    humidity: IndoorHumidity = field(default_factory=IndoorHumidity)
    code: CodeLimits = IECC_2021


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """One component after the work, beside what it was. index: its place in the house."""

    index: int
    component: Component
    before: Component
    seen: PartSeen
    is_shell: bool

    @property
    def name(self) -> str:
        """The component's name."""
        return self.component.name

    @property
    def kind(self) -> Kind:
        """The component's kind."""
        return self.component.kind

    @property
    def is_changed(self) -> bool:
        """Whether the strategy changes its layers."""
        return self.component.construction is not self.before.construction

    @property
    def layers(self) -> tuple[Layer, ...]:
        """Its layers after the work; none where only its U is known."""
        return layers_of(self.component)

    @property
    def layers_before(self) -> tuple[Layer, ...]:
        """Its layers as found."""
        return layers_of(self.before)

    @property
    def added(self) -> tuple[Layer, ...]:
        """Layers that were not there before; a bay that is filled is one of them."""
        old = {id(layer) for layer in self.layers_before}
        return tuple(layer for layer in self.layers if id(layer) not in old)

    @property
    def removed(self) -> tuple[Layer, ...]:
        """Layers that are taken off; a bay that is filled is none of them."""
        kept = {id(layer) for layer in self.layers}
        gone = [layer for layer in self.layers_before if id(layer) not in kept]
        refilled = {type(layer) for layer in self.added if not _is_solid(layer)}
        return tuple(layer for layer in gone if type(layer) not in refilled)

    @property
    def is_opening(self) -> bool:
        """Whether it is a window, skylight or door."""
        return self.kind in OPENINGS

    @property
    def faces_outdoors(self) -> bool:
        """Whether its cold side is outdoors."""
        return self.component.to_space == OUTDOORS


def _is_solid(layer: Layer) -> bool:
    """Whether a layer is one material through and through."""
    return hasattr(layer, "material")


class Case:
    """A house as found, or after a strategy.

    strategy: None as found. shared: what cases of one comparison need not work out twice.
    """

    def __init__(
        self,
        found: Result,
        after: Result,
        strategy: Strategy | None,
        site: Site,
        shared: dict[Hashable, object] | None = None,
    ) -> None:
        self.found = found
        self.after = after
        self.strategy = strategy
        self.site = site
        self.seen = site.seen
        self._shared = {} if shared is None else shared

    @property
    def house(self) -> House:
        """The house after the work."""
        return self.after.house

    @functools.cached_property
    def parts(self) -> tuple[Part, ...]:
        """Every component, in the house's order."""
        made = []
        pairs = zip(self.house.components, self.found.house.components, strict=True)
        for index, (component, before) in enumerate(pairs):
            seen = self.seen.of(component.name)
            made.append(Part(index, component, before, seen, self._is_shell(component)))
        return tuple(made)

    def _is_shell(self, component: Component) -> bool:
        """Whether it stands between inside and not inside."""
        if component.kind in INNER_KINDS:
            return False
        inside = self.house.is_inside
        return inside(component.from_space) != inside(component.to_space)

    @property
    def shell(self) -> Iterator[Part]:
        """The components around what is inside, but for those in the ground."""
        return (part for part in self.parts if part.is_shell and part.component.to_space != GROUND)

    @property
    def changed(self) -> Iterator[Part]:
        """The components whose layers the strategy changes."""
        return (part for part in self.parts if part.is_changed)

    @functools.cached_property
    def moved_inside(self) -> tuple[str, ...]:
        """The spaces that the strategy brings inside."""
        return self.strategy.inside if self.strategy is not None else ()

    @functools.cached_property
    def new_materials(self) -> dict[str, Material]:
        """Materials that the strategy puts in, by name."""
        return {
            material.name: material
            for part in self.changed
            for material in materials_of(part.added)
        }

    @functools.cached_property
    def zone(self) -> Zone | None:
        """The climate zone of the energy code; None where it is not known."""
        read = re.match(r"\s*([0-8])\s*([ABC]?)", self.house.climate.iecc_zone or "")
        return None if read is None else Zone(max(1, int(read[1])), read[2])

    @functools.cached_property
    def airs(self) -> Airs:
        """The air of every space."""
        return Airs(self.after, self.site.humidity)

    def sides(self, part: Part) -> tuple[Air, Air] | None:
        """The air on the warm side of a part and on the other; None without humidity."""
        inside = self.airs.of(part.component.from_space)
        outside = self.airs.of(part.component.to_space)
        return None if inside is None or outside is None else (inside, outside)

    def films(self, part: Part) -> tuple[float, float]:
        """The surface resistances of a part, m2 K/W."""
        return films_of(part.component, self.house.films)

    def shared(self, key: Hashable, make: Callable[[], T]) -> T:
        """What `make` gives, made once for all cases of a comparison."""
        if key not in self._shared:
            self._shared[key] = make()
        return self._shared[key]  # type: ignore[return-value]
