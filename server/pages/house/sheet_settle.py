"""What is settled before a crew begins, and which of its steps wait for that."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.finding_words.telling import Told

LOUD = ("stop", "mend", "open")
MOST_NAMES = 4
ONLY_CLOSING = frozenset({"water first", "old wiring"})
DISTURBED = "asbestos and vermiculite"


@dataclass(frozen=True, slots=True)
class Names:
    """Parts that a line names: the first of them, and how many more there are."""

    first: tuple[str, ...]
    more: int


@dataclass(frozen=True, slots=True)
class Matter:
    """A finding that somebody settles before the crew begins. where: empty for the whole house."""

    severity: str
    severity_name: str
    where: Names
    title: str
    text: str
    mend: str


def shortened(names: Sequence[str]) -> Names:
    """Names for a line that must stay one."""
    return Names(tuple(names[:MOST_NAMES]), max(len(names) - MOST_NAMES, 0))


def matters(findings: Iterable[Told]) -> list[Matter]:
    """What is settled first, what stops the work before all else."""
    loud = [each for each in findings if each.severity in LOUD]
    return [
        Matter(
            severity=each.severity,
            severity_name=each.severity_name.upper(),
            where=shortened(each.finding.components),
            title=each.title,
            text=each.text,
            mend=each.mend,
        )
        for each in sorted(loud, key=lambda each: LOUD.index(each.severity))
    ]


def held_by(
    components: Iterable[str],
    findings: Iterable[Told],
    *,
    closes: bool = True,
    clears: bool = False,
) -> tuple[str, ...]:
    """Titles of the findings that stop work on any of these parts, each once.

    components: none for work on the whole house, such as sealing against air. What stops the work
    at the whole house stops that, and the work on every part. closes: whether something is closed
    up or buried; all else waits only for what it would disturb. clears: whether it is work that
    makes safe what is dangerous to disturb, or gets ready for that.
    """
    parts = set(components)
    titles = [
        each.title
        for each in findings
        if each.severity == "stop"
        and (closes or not _is_of_closing(each))
        and not (clears and each.finding.code == DISTURBED)
        and (not each.finding.components or not parts.isdisjoint(each.finding.components))
    ]
    return tuple(dict.fromkeys(titles))


def _is_of_closing(told: Told) -> bool:
    """Whether a finding stops only what closes something up.

    One that tells of no parts does, unless it tells of what is dangerous to disturb.
    """
    code = told.finding.code
    return code in ONLY_CLOSING or (not told.finding.components and code != DISTURBED)


def is_ground_bare(findings: Iterable[Told]) -> bool:
    """Whether a finding says that the ground of a crawlspace lies bare."""
    found = ((each.finding.code, each.finding.outcome) for each in findings)
    return any(
        code == "crawlspace ground" and outcome.startswith("bare") for code, outcome in found
    )


def ground_cover() -> str:
    """What a crew does about bare ground."""
    return _(
        "A polyethylene sheet of 6 mil at least over all bare ground, laps 6 in and sealed, 6 in "
        "up walls and piers, sealed and held there (IRC R408.3, from memory). Ground smooth, sharp "
        "stones out."
    )
