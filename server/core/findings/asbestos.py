"""Asbestos, and the vermiculite that may hold it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from server.core.assembly import Layer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.closed_bays import stays_closed
from server.core.findings.layers import materials_of
from server.core.findings.said import any_says

VERMICULITE = re.compile(r"vermiculite", re.IGNORECASE)
ASBESTOS = re.compile(r"asbestos", re.IGNORECASE)
LAST_YEAR_LIKELY = 1990  # vermiculite fill was sold until about then (memory)
_ASBESTOS = {
    None: "not looked at",
    "suspected": "suspected",
    "found": "found",
    "tested, none": "none",
}


def _judge(case: Case) -> Iterator[Found]:
    yield from _known_layers(case)
    year = case.seen.year_built
    is_likely = year is None or year <= LAST_YEAR_LIKELY
    fill, other = case.seen.loose_fill, case.seen.asbestos
    flakes, fibres = _noted(case, VERMICULITE), _noted(case, ASBESTOS)
    if (flakes and fill == "no vermiculite") or (fibres and other == "tested, none"):
        yield Found("contradicted", tuple(dict.fromkeys(flakes + fibres)))
        return
    fill = fill or ("vermiculite" if flakes else None)
    other = other or ("suspected" if fibres else None)
    if fill == "vermiculite":
        yield Found("vermiculite, worked on" if case.strategy is not None else "vermiculite")
    elif fill is None and is_likely:
        yield Found("loose fill not looked at")
    if other is not None or is_likely:
        yield Found(_ASBESTOS[other])


def _noted(case: Case, pattern: re.Pattern[str]) -> tuple[str, ...]:
    """The parts of which a note of the survey says that it is there."""
    return tuple(part.name for part in case.parts if any_says(pattern, part.seen.condition))


def _known_layers(case: Case) -> Iterator[Found]:
    """Materials of the survey that say so themselves."""
    for part in case.parts:
        names = _names(part.layers_before)
        told = tuple(sorted(filter(_says_so, names)))
        if not told:
            continue
        yield Found(_outcome(part, names), (part.name,), {"materials": told})


def _outcome(part: Part, names: set[str]) -> str:
    if not part.is_changed:
        return "is there"
    if any(map(_says_so, names - _names(part.layers))):
        return "comes off"
    return "drilled through" if stays_closed(part) else "covered"


def _names(layers: Iterable[Layer]) -> set[str]:
    return {material.name for material in materials_of(layers)}


def _says_so(name: str) -> bool:
    return "asbestos" in name.lower() or "vermiculite" in name.lower()


RULE = Rule(
    "asbestos and vermiculite",
    {
        "vermiculite, worked on": Severity.STOP,
        "vermiculite": Severity.MEND,
        "comes off": Severity.MEND,
        "drilled through": Severity.STOP,
        "covered": Severity.MEND,
        "is there": Severity.WATCH,
        "contradicted": Severity.MEND,
        "found": Severity.MEND,
        "suspected": Severity.MEND,
        "loose fill not looked at": Severity.OPEN,
        "not looked at": Severity.OPEN,
        "none": Severity.GOOD,
    },
    _judge,
)
