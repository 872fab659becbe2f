"""Findings side by side as text, at most 100 columns wide."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from gettext import gettext as _

from server.core.findings.base import Severity
from server.files.text_table import WIDTH
from server.finding_words.side_by_side import FindingGroup, FindingRow
from server.finding_words.telling import SEVERITY_NAMES

LOUD = ("stop", "mend")
MOST_PARTS = 4  # named; the rest is counted


def findings_text(rows: Sequence[FindingRow], columns: Sequence[str]) -> str:
    """What stops or has to be mended, in sentences; all else in a line for each."""
    lines = [_("What could go wrong"), "=" * WIDTH]
    for row in rows:
        for group in row.groups:
            if group.severity in LOUD:
                lines += _group(row, group, columns)
    for severity in ("open", "watch", "good"):
        lines += _in_a_line(rows, severity)
    words = _("A guide: local codes and licensed practice decide.")
    return "\n".join([*lines, "", words, "", ""])


def _group(row: FindingRow, group: FindingGroup, columns: Sequence[str]) -> Iterator[str]:
    where = _("everywhere") if len(group.columns) == len(columns) else ", ".join(group.columns)
    yield from _wrapped(f"{group.severity_name.upper()}  {row.title} ({where})", "")
    yield from _wrapped(group.text, "    ")
    for place in group.places:
        figures = f"{place.figure} ({place.limit})" if place.limit else place.figure
        here = "" if place.columns == group.columns else ", ".join(place.columns)
        said = (here, _parts(place.parts), figures)
        yield from _wrapped(": ".join(each for each in said if each), "    - ")
    if group.mend:
        yield from _wrapped(group.mend, "    > ")


def _parts(parts: Sequence[str]) -> str:
    if len(parts) <= MOST_PARTS:
        return ", ".join(parts)
    shown = ", ".join(parts[: MOST_PARTS - 1])
    return _("{shown} and {more} more").format(shown=shown, more=len(parts) - MOST_PARTS + 1)


def _in_a_line(rows: Sequence[FindingRow], severity: str) -> Iterator[str]:
    """Rows by their titles, of which nothing is worse in any column."""
    told = [row for row in rows if row.severity == severity]
    if told:
        name = SEVERITY_NAMES[Severity(severity)]
        titles = "; ".join(row.title for row in told)
        yield from _wrapped(f"{name.upper()}  {titles}", "")


def _wrapped(text: str, indent: str) -> list[str]:
    rest = " " * len(indent)
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=rest) or [""]
