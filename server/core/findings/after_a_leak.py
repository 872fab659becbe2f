"""What becomes of the insulation that a strategy puts in when water gets at it."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.insulation_sorts import PutIn, Sort, found_by_outcome, new_insulation
from server.core.findings.layers import FILLS, materials_of

# What is said by the sort alone, whatever its form.
_BY_SORT = {
    Sort.STONE_WOOL: "stone wool",
    Sort.CELLULOSE: "cellulose",
    Sort.NATURAL_FIBRE: "natural fibre",
    Sort.POLYSTYRENE: "polystyrene",
    Sort.OPEN_CELL: "open-cell foam",
    Sort.CLOSED_CELL: "closed-cell foam",
    Sort.POLYISOCYANURATE: "faced board",
    Sort.PHENOLIC: "faced board",
    Sort.CORK: "cork",
    Sort.WOOD_WOOL_CEMENT: "wood-wool cement",
    Sort.CELLULAR_GLASS: "cellular glass",
    Sort.MINERAL_GRAIN: "grains",
    Sort.OTHER: "other",
}


def _judge(case: Case) -> Iterator[Found]:
    """One finding for what takes water alike; gypsum boards that are put in stand beside."""
    yield from found_by_outcome(itertools.chain(new_insulation(case), _gypsum(case)), _outcome)


def _gypsum(case: Case) -> Iterator[PutIn]:
    for part in case.changed:
        for layer in part.added:
            for material in materials_of([layer]):
                if material.name.startswith("gypsum") and material.group != "plaster":
                    yield PutIn(part, layer, material)


def _outcome(piece: PutIn) -> str:
    if piece.material.name.startswith("gypsum"):
        return "gypsum board"
    if piece.sort is Sort.GLASS_WOOL:
        if piece.group not in FILLS:
            return "glass wool board"
        return "glass wool batts" if piece.group == "batt" else "blown glass wool"
    if piece.sort is Sort.WOOD_FIBRE:
        return "wood fibre fill" if piece.group in FILLS else "wood fibre board"
    return _BY_SORT[piece.sort]


RULE = Rule(
    "after a leak",
    {
        "stone wool": Severity.GOOD,
        "glass wool board": Severity.GOOD,
        "glass wool batts": Severity.WATCH,
        "blown glass wool": Severity.WATCH,
        "cellulose": Severity.WATCH,
        "wood fibre fill": Severity.WATCH,
        "wood fibre board": Severity.WATCH,
        "natural fibre": Severity.WATCH,
        "closed-cell foam": Severity.WATCH,
        "open-cell foam": Severity.WATCH,
        "polystyrene": Severity.GOOD,
        "faced board": Severity.WATCH,
        "cork": Severity.WATCH,
        "wood-wool cement": Severity.GOOD,
        "cellular glass": Severity.GOOD,
        "grains": Severity.WATCH,
        "gypsum board": Severity.WATCH,
        "other": Severity.WATCH,
    },
    _judge,
)
