"""How the insulation that a strategy puts in behaves in a fire."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.insulation_sorts import (
    INCOMBUSTIBLE,
    PutIn,
    Sort,
    found_by_outcome,
    new_insulation,
)

_INORGANIC = frozenset({Sort.STONE_WOOL, Sort.GLASS_WOOL, Sort.CELLULAR_GLASS, Sort.MINERAL_GRAIN})
_URETHANES = frozenset({Sort.OPEN_CELL, Sort.CLOSED_CELL, Sort.POLYISOCYANURATE})


def _judge(case: Case) -> Iterator[Found]:
    """One finding for what behaves alike, with the classes of EN 13501-1."""
    classes = {
        name: material.reaction_to_fire or "none declared"
        for name, material in case.new_materials.items()
    }
    for found in found_by_outcome(new_insulation(case), _outcome):
        assert found.facts is not None
        names = found.facts["materials"]
        assert isinstance(names, tuple)
        told = tuple(dict.fromkeys(classes[name] for name in names))
        yield Found(found.outcome, found.components, {**found.facts, "classes": told})


def _outcome(piece: PutIn) -> str:
    """What its sort does when hot; a declared class that is worse than its sort's goes before."""
    declared = piece.material.reaction_to_fire
    burns = declared is not None and declared not in INCOMBUSTIBLE
    sort = piece.sort
    if sort in _INORGANIC and burns:
        return "burns"
    if sort in _URETHANES:
        return "urethane foam"
    if sort is Sort.OTHER:
        return "does not burn" if declared in INCOMBUSTIBLE else "burns"
    return str(sort.value)


RULE = Rule(
    "fire behaviour",
    {
        Sort.STONE_WOOL.value: Severity.GOOD,
        Sort.GLASS_WOOL.value: Severity.GOOD,
        Sort.CELLULAR_GLASS.value: Severity.GOOD,
        Sort.MINERAL_GRAIN.value: Severity.GOOD,
        "does not burn": Severity.GOOD,
        Sort.CELLULOSE.value: Severity.WATCH,
        Sort.WOOD_FIBRE.value: Severity.WATCH,
        Sort.NATURAL_FIBRE.value: Severity.WATCH,
        Sort.CORK.value: Severity.WATCH,
        Sort.WOOD_WOOL_CEMENT.value: Severity.WATCH,
        Sort.POLYSTYRENE.value: Severity.WATCH,
        "urethane foam": Severity.WATCH,
        Sort.PHENOLIC.value: Severity.WATCH,
        "burns": Severity.WATCH,
    },
    _judge,
)
