"""Strategies that do not fit a house as it stands, and why, in words."""

from __future__ import annotations

from dataclasses import dataclass

from server.files.building import Survey
from server.files.faults import Fault
from server.files.places import steps_of
from server.pages.house.labels import LABELS


@dataclass(frozen=True, slots=True)
class NotFitting:
    """A strategy that does not fit, and why."""

    key: str
    name: str
    reasons: tuple[str, ...]


def not_fitting(survey: Survey) -> tuple[NotFitting, ...]:
    """The strategies of a survey that do not fit it, in its order."""
    entries = survey.file.strategies
    made = []
    for index, faults in sorted(survey.not_fitting.items()):
        reasons = dict.fromkeys(_reason(fault) for fault in faults)
        made.append(NotFitting(entries[index].key or "", entries[index].name, tuple(reasons)))
    return tuple(made)


def _reason(fault: Fault) -> str:
    """What is wrong, after what it is done to, or the label of its field."""
    _strategies, _index, *steps = steps_of(fault.place)
    if steps[:1] == ["changes"] and len(steps) > 1:
        return f"{steps[1]}: {fault.words}"
    label = LABELS.get(str(steps[-1])) if steps else None
    return f"{label}: {fault.words}" if label else fault.words
