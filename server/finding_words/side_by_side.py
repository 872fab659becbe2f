"""Findings of a house as found and under every strategy, side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from server.core.findings.base import ORDER, Finding, Severity
from server.finding_words.telling import SEVERITY_NAMES, Told, told
from server.units import System


@dataclass(frozen=True, slots=True)
class PlaceLine:
    """Where one thing was found: in which columns, of which parts, and its figure there."""

    columns: tuple[str, ...]
    parts: tuple[str, ...]
    figure: str
    limit: str


@dataclass(frozen=True, slots=True)
class FindingGroup:
    """One thing that was found, in one or more columns."""

    severity: str
    severity_name: str
    text: str
    mend: str
    columns: tuple[str, ...]
    places: tuple[PlaceLine, ...]


@dataclass(frozen=True, slots=True)
class FindingRow:
    """One sort of finding side by side.

    cells: the worst severity of each column, None where it is silent; cell_names as people read it.
    aside: it tells of materials and asks for nothing, so that it stands folded.
    """

    code: str
    title: str
    source: str
    severity: str
    cells: tuple[str | None, ...]
    cell_names: tuple[str, ...]
    groups: tuple[FindingGroup, ...]
    aside: bool


def side_by_side(
    judged: Sequence[Sequence[Finding]], names: Sequence[str], system: System
) -> list[FindingRow]:
    """All findings as rows, the worst first. names: of the columns, as found the first."""
    by_code: dict[str, list[tuple[int, Told]]] = {}
    for column, findings in enumerate(judged):
        for finding in findings:
            by_code.setdefault(finding.code, []).append((column, told(finding, system)))
    rows = [_row(code, each, names) for code, each in by_code.items()]
    return sorted(rows, key=lambda row: _rank(row.severity))


def _rank(severity: str) -> int:
    return ORDER.index(Severity(severity))


def _row(code: str, each: Sequence[tuple[int, Told]], names: Sequence[str]) -> FindingRow:
    cells: list[str | None] = [None] * len(names)
    for column, words in each:
        now = cells[column]
        if now is None or _rank(words.severity) < _rank(now):
            cells[column] = words.severity
    groups = _groups(each, names)
    first = each[0][1]
    read = tuple("" if cell is None else SEVERITY_NAMES[Severity(cell)] for cell in cells)
    severity = groups[0].severity
    aside = first.aside and severity in (Severity.WATCH.value, Severity.GOOD.value)
    return FindingRow(code, first.title, first.source, severity, tuple(cells), read, groups, aside)


def _groups(each: Sequence[tuple[int, Told]], names: Sequence[str]) -> tuple[FindingGroup, ...]:
    alike: dict[tuple[str, str, str], list[tuple[int, Told]]] = {}
    for column, words in each:
        alike.setdefault((words.severity, words.text, words.mend), []).append((column, words))
    groups = [
        FindingGroup(
            severity,
            SEVERITY_NAMES[Severity(severity)],
            text,
            mend,
            tuple(dict.fromkeys(names[column] for column, _words in members)),
            _places(members, names),
        )
        for (severity, text, mend), members in alike.items()
    ]
    return tuple(sorted(groups, key=lambda group: _rank(group.severity)))


def _places(members: Sequence[tuple[int, Told]], names: Sequence[str]) -> tuple[PlaceLine, ...]:
    """Columns in which the same parts have the same figure stand together."""
    alike: dict[tuple[tuple[str, ...], str, str], list[str]] = {}
    for column, words in members:
        place = (words.finding.components, words.figure, words.limit)
        alike.setdefault(place, []).append(names[column])
    return tuple(
        PlaceLine(tuple(dict.fromkeys(columns)), parts, figure, limit)
        for (parts, figure, limit), columns in alike.items()
        if parts or figure
    )
