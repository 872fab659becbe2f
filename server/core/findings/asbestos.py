"""Asbestos, and the vermiculite that may hold it."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.layers import materials_of

LAST_YEAR_LIKELY = 1990  # vermiculite fill was sold until about then (memory)


def _judge(case: Case) -> Iterator[Found]:
    yield from _known_layers(case)
    year = case.seen.year_built
    if year is not None and year > LAST_YEAR_LIKELY:
        return
    fill = case.seen.loose_fill
    if fill == "vermiculite":
        yield Found("vermiculite, worked on" if case.strategy is not None else "vermiculite")
    elif fill is None:
        yield Found("loose fill not looked at")
    other = {
        None: "not looked at",
        "suspected": "suspected",
        "found": "found",
        "tested, none": "none",
    }
    yield Found(other[case.seen.asbestos])


def _known_layers(case: Case) -> Iterator[Found]:
    """Materials of the survey that say so themselves."""
    for part in case.parts:
        layers = part.removed if case.strategy is not None else part.layers
        names = {material.name for material in materials_of(layers)}
        told = tuple(
            sorted(n for n in names if "asbestos" in n.lower() or "vermiculite" in n.lower())
        )
        if told:
            outcome = "comes off" if case.strategy is not None else "is there"
            yield Found(outcome, (part.name,), {"materials": told})


def _says_so(name: str) -> bool:
    return "asbestos" in name.lower() or "vermiculite" in name.lower()


RULE = Rule(
    "asbestos and vermiculite",
    {
        "vermiculite, worked on": Severity.STOP,
        "vermiculite": Severity.MEND,
        "comes off": Severity.MEND,
        "is there": Severity.WATCH,
        "found": Severity.MEND,
        "suspected": Severity.MEND,
        "loose fill not looked at": Severity.OPEN,
        "not looked at": Severity.OPEN,
        "none": Severity.GOOD,
    },
    _judge,
)
