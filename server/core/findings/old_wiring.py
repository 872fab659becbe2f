"""Knob-and-tube wiring, which must not be buried in insulation."""

from __future__ import annotations

import re
from collections.abc import Iterator

from server.core.assembly import FramedLayer, Layer, SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import FILLS, insulates
from server.core.findings.said import any_says

SAID = re.compile(r"knob.and.tube", re.IGNORECASE)
REPLACED = "replaced or dead"  # what a note still tells of is answered by it
LAST_YEAR_LIKELY = 1950  # installed until about then (memory)


def _judge(case: Case) -> Iterator[Found]:
    year, answer = case.seen.year_built, case.seen.wiring
    if answer == REPLACED:
        yield Found("replaced")
        return
    noted = tuple(part.name for part in case.parts if any_says(SAID, part.seen.condition))
    if answer is None and noted:
        answer = "knob-and-tube"
    if answer is None and year is not None and year > LAST_YEAR_LIKELY:
        return
    filled = tuple(part.name for part in case.changed if _fills_bays(part))
    if answer == "modern" and noted:
        yield Found("contradicted, bays filled" if filled else "contradicted", noted)
    elif answer == "modern":
        yield Found("modern")
    elif answer == "knob-and-tube":
        yield Found("buried" if filled else "found", filled)
    elif filled:
        yield Found("not looked at, bays filled", filled)
    else:
        yield Found("not looked at")


def _fills_bays(part: Part) -> bool:
    """Whether fill goes between framing, or is laid over it."""
    return any(_is_fill(layer) for layer in part.added)


def _is_fill(layer: Layer) -> bool:
    if isinstance(layer, FramedLayer):
        return insulates(layer)
    return isinstance(layer, SolidLayer) and layer.material.group in FILLS | {"sprayed-foam"}


RULE = Rule(
    "old wiring",
    {
        "buried": Severity.STOP,
        "found": Severity.WATCH,
        "not looked at, bays filled": Severity.OPEN,
        "not looked at": Severity.OPEN,
        "contradicted, bays filled": Severity.MEND,
        "contradicted": Severity.OPEN,
        "modern": Severity.GOOD,
        "replaced": Severity.GOOD,
    },
    _judge,
)
