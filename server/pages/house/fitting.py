"""Strategies that do not fit a house as it stands, and why, in words."""

from __future__ import annotations

from dataclasses import dataclass

from server.files.building import Survey
from server.files.faults import Fault
from server.files.places import steps_of


@dataclass(frozen=True, slots=True)
class NotFitting:
    """A strategy that does not fit, and why."""

    key: str
    name: str
    reasons: tuple[str, ...]


def not_fitting(survey: Survey) -> tuple[NotFitting, ...]:
    """The strategies of a survey that do not fit it, in its order."""
    reasons: dict[int, list[str]] = {}
    for fault in survey.faults:
        _strategies, index, *rest = steps_of(fault.place)
        if isinstance(index, int):
            reasons.setdefault(index, []).append(_reason(fault, rest))
    entries = survey.file.strategies
    return tuple(
        NotFitting(entries[index].key or "", entries[index].name, tuple(dict.fromkeys(words)))
        for index, words in sorted(reasons.items())
    )


def _reason(fault: Fault, steps: list[str | int]) -> str:
    """What is wrong, after what it is done to."""
    done_to = steps[1] if steps[:1] == ["changes"] and len(steps) > 1 else None
    return fault.words if done_to is None else f"{done_to}: {fault.words}"
