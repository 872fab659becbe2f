"""Whether the insulation that a strategy puts in can be taken out and used again."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case
from server.core.findings.insulation_sorts import PutIn, found_by_outcome, new_insulation


def _judge(case: Case) -> Iterator[Found]:
    """One finding for what is put in alike."""
    return found_by_outcome(new_insulation(case), _outcome)


def _outcome(piece: PutIn) -> str:
    if piece.group == "batt":
        return "batts"
    if piece.group == "loose-fill":
        return "loose fill"
    if piece.group == "dense-pack":
        return "packed fill"
    if piece.group == "sprayed-foam":
        return "sprayed foam"
    return "fastened board" if piece.is_fastened else "board"


RULE = Rule(
    "use again",
    {
        "fastened board": Severity.GOOD,
        "batts": Severity.GOOD,
        "board": Severity.WATCH,
        "loose fill": Severity.WATCH,
        "packed fill": Severity.WATCH,
        "sprayed foam": Severity.WATCH,
    },
    _judge,
)
