"""Whether foam plastic is covered against fire toward rooms, attics and crawlspaces."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from server.core.assembly import FramedLayer, Layer, SolidLayer
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.insulation_sorts import INCOMBUSTIBLE
from server.core.findings.layers import (
    FILLS,
    MASONRY,
    deck_of,
    fill_thickness,
    is_foam,
    materials_of,
)
from server.core.house import GROUND, OUTDOORS, Kind
from server.core.materials import Material

GYPSUM = 0.0127  # m: thermal barrier of 1/2 in gypsum board, IRC R316.4
SLACK = 0.0007  # m: boards of 12 mm are sold as 1/2 in (common practice)
WOOD = 0.018  # m: 23/32 in wood structural panel as a thermal barrier, IRC R316.4 (2015 on)
ROOF_DECK = 0.0119  # m: 15/32 in wood panel below foam on a roof, IRC R316.5.2 (memory)
MASONRY_COVER = 0.025  # m: masonry or concrete of 1 in, IRC R316.5.1 (memory)
THIN_GYPSUM = 0.009  # m: 3/8 in gypsum board as an ignition barrier, IRC R316.5.3
THIN_WOOD = 0.006  # m: 1/4 in wood panel as an ignition barrier, IRC R316.5.3 (memory)
WOOL = 0.038  # m: 1 1/2 in mineral fibre as an ignition barrier, IRC R316.5.3 (memory)
RIM_FOAM = 0.083  # m: 3 1/4 in of sprayed foam may stay bare at a rim joist, IRC R316.5.11
WOOD_GROUPS = frozenset({"sheathing", "structure", "board", "flooring"})
MINERAL_GROUPS = frozenset({"plaster", "board", "sheathing", "cladding", "flooring"})
WOOL_GROUPS = FILLS | {"rigid-mineral-wool"}
_SERVICE_SPACE = re.compile(r"\b(attic|crawl)", re.IGNORECASE)
_LIVED_IN = re.compile(r"room|\b(bed|bath|office|study|studio|finished|living)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Cover:
    """What stands between a foam and a space, m of each sort, and the names of all of it."""

    gypsum: float = 0.0
    masonry: float = 0.0
    wood: float = 0.0
    wool: float = 0.0
    names: tuple[str, ...] = ()
    boards: tuple[str, ...] = ()  # of the names those of gypsum board and its like

    @property
    def thickness(self) -> float:
        return self.gypsum + self.masonry + self.wood + self.wool

    @property
    def is_thermal_barrier(self) -> bool:
        return self.gypsum >= GYPSUM - SLACK or self.masonry >= MASONRY_COVER

    @property
    def is_ignition_barrier(self) -> bool:
        return (
            self.gypsum >= THIN_GYPSUM
            or self.masonry >= MASONRY_COVER
            or self.wood >= THIN_WOOD
            or self.wool >= WOOL
        )


def _judge(case: Case) -> Iterator[Found]:
    """Both faces of every layered part, but toward outdoors and ground."""
    for part in case.parts:
        if part.is_opening:  # doors filled with foam are exempt, IRC R316.5.5
            continue
        outward = part.layers[::-1]
        sides = ((part.component.from_space, part.layers), (part.component.to_space, outward))
        for space, layers in sides:
            if space not in (OUTDOORS, GROUND):
                yield from _judge_face(part, space, layers)


def _judge_face(part: Part, space: str, layers: Sequence[Layer]) -> Iterator[Found]:
    """One face, its layers from the space on."""
    index = next((n for n, layer in enumerate(layers) if _foam_in(layer) is not None), None)
    if index is None:
        return
    foam = _foam_in(layers[index])
    assert foam is not None
    cover = _cover_of(layers[:index])
    above = space == part.component.from_space and index > deck_of(part.layers)
    outcome = _outcome(part, space, cover, layers[index], above)
    facts: dict[str, Fact] = {"foam": foam.name, "space": space}
    measured = None
    if outcome in ("covered", "covered by wood", "ignition barrier"):
        thickness = Quantity(round(cover.thickness, 5), "thickness")
        facts |= {"cover": cover.names, "thickness": thickness}
    elif outcome == "thin toward a room":
        thickness = Quantity(round(cover.gypsum, 5), "thickness")
        facts |= {"cover": cover.boards, "thickness": thickness}
        measured = Measured(thickness, Quantity(GYPSUM, "thickness"), at_least=True)
    elif outcome == "wrong cover toward a room":
        facts["cover"] = cover.names
    yield Found(outcome, (part.name,), facts, measured)


def _foam_in(layer: Layer) -> Material | None:
    return next((material for material in materials_of([layer]) if is_foam(material)), None)


def _outcome(part: Part, space: str, cover: _Cover, foam: Layer, above_deck: bool) -> str:
    if cover.is_thermal_barrier:
        return "covered"
    if part.kind is Kind.ROOF and above_deck and cover.wood >= ROOF_DECK:
        return "above the deck"
    if _is_bare_rim(part, cover, foam):
        return "rim joist"
    if not _is_room(space):
        return "ignition barrier" if cover.is_ignition_barrier else "bare in a buffer"
    return _toward_a_room(cover)


def _toward_a_room(cover: _Cover) -> str:
    if cover.wood >= WOOD:
        return "covered by wood"
    if cover.boards:
        return "thin toward a room"
    return "wrong cover toward a room" if cover.names else "bare toward a room"


def _is_room(space: str) -> bool:
    """Whether more than an ignition barrier is asked: all but attics and crawlspaces, R316.5.3."""
    return _SERVICE_SPACE.search(space) is None or _LIVED_IN.search(space) is not None


def _is_bare_rim(part: Part, cover: _Cover, foam: Layer) -> bool:
    """Sprayed foam of up to 3 1/4 in at a rim joist, which the code lets stay bare."""
    material = _foam_in(foam)
    assert material is not None
    thick = _thickness_of(foam)
    is_rim = re.search(r"\brim\b", part.name, re.IGNORECASE) is not None
    return is_rim and material.group == "sprayed-foam" and thick <= RIM_FOAM and not cover.names


def _thickness_of(layer: Layer) -> float:
    """Of a solid layer or of a fill, m."""
    if isinstance(layer, SolidLayer):
        return float(layer.thickness)
    return fill_thickness(layer) if isinstance(layer, FramedLayer) else 0.0


def _material_of(layer: Layer) -> Material | None:
    """Of a solid layer or of a fill."""
    if isinstance(layer, SolidLayer):
        return layer.material
    return layer.fill if isinstance(layer, FramedLayer) else None


def _cover_of(layers: Sequence[Layer]) -> _Cover:
    """What the code knows as a cover among some layers; paper, felt, film and foil are none."""
    sums = {"gypsum": 0.0, "masonry": 0.0, "wood": 0.0, "wool": 0.0}
    names: dict[str, str] = {}
    for layer in layers:
        material = _material_of(layer)
        sort = None if material is None else _sort_of_cover(material)
        if material is not None and sort is not None:
            sums[sort] += _thickness_of(layer)
            names[material.name] = sort
    boards = tuple(name for name, sort in names.items() if sort == "gypsum")
    return _Cover(**sums, names=tuple(names), boards=boards)


def _sort_of_cover(material: Material) -> str | None:
    burns = material.reaction_to_fire not in INCOMBUSTIBLE
    if material.group in MASONRY:
        return "masonry"
    if material.group == "plaster" or "gypsum" in material.name.lower():
        return "gypsum"
    if not burns and material.group in MINERAL_GROUPS:
        return "gypsum"
    if not burns and material.group in WOOL_GROUPS:
        return "wool"
    if material.reaction_to_fire == "D" and material.group in WOOD_GROUPS:
        return "wood"
    return None


RULE = Rule(
    "foam cover",
    {
        "covered": Severity.GOOD,
        "covered by wood": Severity.WATCH,
        "ignition barrier": Severity.GOOD,
        "rim joist": Severity.GOOD,
        "above the deck": Severity.GOOD,
        "bare toward a room": Severity.STOP,
        "thin toward a room": Severity.STOP,
        "wrong cover toward a room": Severity.STOP,
        "bare in a buffer": Severity.MEND,
    },
    _judge,
)
