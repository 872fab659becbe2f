"""What an insulation is made of and in which form it comes, and which of it a strategy puts in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum

from server.core.assembly import FramedLayer, Layer, SolidLayer
from server.core.findings.base import Found
from server.core.findings.case import Case, Part
from server.core.findings.layers import INSULATES_BELOW, is_insulation, materials_of
from server.core.materials import Material

INCOMBUSTIBLE = frozenset({"A1", "A2"})  # EN 13501-1: no or hardly any contribution to a fire


class Sort(Enum):
    """What an insulation is made of, as far as fire, water and hands can tell the difference."""

    STONE_WOOL = "stone wool"
    GLASS_WOOL = "glass wool"
    CELLULOSE = "cellulose"
    WOOD_FIBRE = "wood fibre"
    NATURAL_FIBRE = "natural fibre"
    POLYSTYRENE = "polystyrene"
    OPEN_CELL = "open-cell foam"
    CLOSED_CELL = "closed-cell foam"
    POLYISOCYANURATE = "polyisocyanurate"
    PHENOLIC = "phenolic foam"
    CORK = "cork"
    WOOD_WOOL_CEMENT = "wood-wool cement"
    CELLULAR_GLASS = "cellular glass"
    MINERAL_GRAIN = "perlite or vermiculite"
    OTHER = "other"


# By a word of the name; the first that fits. Names are read as the material table spells them.
_SORT_BY_WORD = (
    ("wood-wool cement", Sort.WOOD_WOOL_CEMENT),
    ("cellular glass", Sort.CELLULAR_GLASS),
    ("sheep", Sort.NATURAL_FIBRE),
    ("cotton", Sort.NATURAL_FIBRE),
    ("hemp", Sort.NATURAL_FIBRE),
    ("cork", Sort.CORK),
    ("cellulose", Sort.CELLULOSE),
    ("perlite", Sort.MINERAL_GRAIN),
    ("vermiculite", Sort.MINERAL_GRAIN),
    ("polystyrene", Sort.POLYSTYRENE),
    ("polyiso", Sort.POLYISOCYANURATE),
    ("phenolic", Sort.PHENOLIC),
    ("open-cell", Sort.OPEN_CELL),
    ("closed-cell", Sort.CLOSED_CELL),
    ("glass", Sort.GLASS_WOOL),
    ("mineral wool", Sort.STONE_WOOL),
    ("stone wool", Sort.STONE_WOOL),
    ("slag wool", Sort.STONE_WOOL),
    ("wood-fibre", Sort.WOOD_FIBRE),
    ("wood fibre", Sort.WOOD_FIBRE),
    ("fibreboard", Sort.WOOD_FIBRE),
    ("sawdust", Sort.WOOD_FIBRE),
)


@dataclass(frozen=True, slots=True, eq=False)
class PutIn:
    """One insulation in one layer that a strategy puts into a part."""

    part: Part
    layer: Layer
    material: Material

    @property
    def sort(self) -> Sort:
        """What it is made of."""
        return sort_of(self.material)

    @property
    def group(self) -> str:
        """Its group in the material table; nothing where it has none."""
        return self.material.group or ""

    @property
    def is_fill(self) -> bool:
        """Whether it lies between framing."""
        return isinstance(self.layer, FramedLayer)

    @property
    def is_fastened(self) -> bool:
        """Whether it is a board whose fasteners are known."""
        return isinstance(self.layer, SolidLayer) and self.layer.fasteners is not None


def sort_of(material: Material) -> Sort:
    """What an insulation is made of, by the words of its name.

    Shapes: one material.
    Range: the materials of the table, and others that are named alike.
    Raises: nothing: what it does not know is OTHER.
    Source: definition.
    """
    name = material.name.lower().replace("fiber", "fibre")
    return next((sort for word, sort in _SORT_BY_WORD if word in name), Sort.OTHER)


def new_insulation(case: Case) -> Iterator[PutIn]:
    """Every insulation that a strategy puts in, and sheathing that insulates; none as found.

    Shapes: one case.
    Range: any house.
    Raises: nothing.
    Source: definition.
    """
    for part in case.changed:
        for layer in part.added:
            for material in materials_of([layer]):
                if _insulates(material):
                    yield PutIn(part, layer, material)


def _insulates(material: Material) -> bool:
    sheathing = material.group == "sheathing" and float(material.conductivity) <= INSULATES_BELOW
    return sheathing or is_insulation(material)


def found_by_outcome(
    pieces: Iterator[PutIn], outcome_of: Callable[[PutIn], str | None]
) -> Iterator[Found]:
    """One finding for each outcome, with the names of its materials and of the parts they are in.

    Shapes: any number of pieces.
    Range: pieces of which nothing is said (None) are left out.
    Raises: nothing.
    Source: definition.
    """
    groups: dict[str, list[PutIn]] = {}
    for piece in pieces:
        outcome = outcome_of(piece)
        if outcome is not None:
            groups.setdefault(outcome, []).append(piece)
    for outcome, group in groups.items():
        materials = tuple(dict.fromkeys(piece.material.name for piece in group))
        parts = tuple(dict.fromkeys(piece.part.name for piece in group))
        yield Found(outcome, parts, {"materials": materials})
