"""One house to be judged: as found, or after a strategy, with all that rules ask of it."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import TypeVar

from server.core.assembly import Layer
from server.core.evaluate import Result
from server.core.findings.code_limits import IECC_2021, CodeLimits
from server.core.findings.indoor_air import Air, Airs, IndoorHumidity
from server.core.findings.layers import PAINT, USUAL_PAINT, is_lined, layers_of, materials_of
from server.core.findings.observations import Observations, PartSeen
from server.core.house import GROUND, INNER_KINDS, OPENINGS, OUTDOORS, Component, House
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


class Part:
    """One component after the work, beside what it was.

    index: its place in the house. layers, layers_before: none where only its U is known. added:
    layers that were not there, a bay that is filled among them; removed: layers that are taken off.
    is_shell: whether it stands between inside and not inside.
    """

    def __init__(
        self,
        index: int,
        component: Component,
        before: Component,
        seen: PartSeen,
        *,
        is_shell: bool,
    ) -> None:
        self.index = index
        self.component = component
        self.before = before
        self.seen = seen
        self.is_shell = is_shell
        self.name = component.name
        self.kind = component.kind
        self.is_opening = component.kind in OPENINGS
        self.faces_outdoors = component.to_space == OUTDOORS
        self.is_changed = component.construction is not before.construction
        self.layers = layers_of(component)
        self.layers_before = layers_of(before) if self.is_changed else self.layers
        self.added = _without(self.layers, self.layers_before) if self.is_changed else ()
        self.removed = self._removed() if self.is_changed else ()

    def _removed(self) -> tuple[Layer, ...]:
        refilled = {type(layer) for layer in self.added if not _is_solid(layer)}
        gone = _without(self.layers_before, self.layers)
        return tuple(layer for layer in gone if type(layer) not in refilled)


def _without(layers: tuple[Layer, ...], others: tuple[Layer, ...]) -> tuple[Layer, ...]:
    known = {id(layer) for layer in others}
    return tuple(layer for layer in layers if id(layer) not in known)


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
            is_shell = self._is_shell(component)
            made.append(Part(index, component, before, seen, is_shell=is_shell))
        return tuple(made)

    def _is_shell(self, component: Component) -> bool:
        """Whether it stands between inside and not inside."""
        if component.kind in INNER_KINDS:
            return False
        inside = self.inside
        return (component.from_space in inside) != (component.to_space in inside)

    @functools.cached_property
    def inside(self) -> frozenset[str]:
        """The spaces inside the thermal boundary."""
        return frozenset(space.name for space in self.house.spaces if space.inside)

    @functools.cached_property
    def shell(self) -> tuple[Part, ...]:
        """The components around what is inside, but for those in the ground."""
        return tuple(p for p in self.parts if p.is_shell and p.component.to_space != GROUND)

    @functools.cached_property
    def changed(self) -> tuple[Part, ...]:
        """The components whose layers the strategy changes."""
        return tuple(part for part in self.parts if part.is_changed)

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
        return Airs(self.after, self.site.humidity, self.moved_inside)

    def paint(self, part: Part) -> float:
        """s_d of the paint on the room side of a part, m; 0 where nothing is painted."""
        if not is_lined(part.layers) or part.component.from_space not in self.inside:
            return 0.0
        return PAINT[self.seen.inside_paint or USUAL_PAINT]

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
