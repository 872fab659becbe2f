"""Whether words of a survey say that something is there, or that it is not."""

from __future__ import annotations

import re
from collections.abc import Iterable

# at most one word between, or "no sign of"; "never repaired" denies nothing
_DENIED_BEFORE = re.compile(
    r"(\b(no|not|never|without)(\s+(sign|trace|evidence)s?(\s+of)?)?"
    r"|\bfree of|(?<!not )(?<!never )\b(past|repaired|mended))"
    r"(\s+(?!(but|and|yet|only|repaired|mended)\b)[\w-]+)?\s*$",
    re.IGNORECASE,
)
# all that is left of the note: ": tested, none", "siding was removed in 2015"
_DENIED_AFTER = re.compile(
    r"^(\s+(?!not\b|never\b)[\w-]+)?[\s:,(-]*((is|are|was|were|has|have|been|all|fully|tested|test|and|found)[\s:,]+)*"
    r"(none|removed|negative|free)(\s+(in\s+)?\d{4})?[\s.);]*$",
    re.IGNORECASE,
)
_ELSEWHERE = re.compile(
    r"\b(but|yet|live|left|still|some|elsewhere|except|only|partly|partially)\b", re.IGNORECASE
)


def says(pattern: re.Pattern[str], words: str) -> bool:
    """Whether words hold a pattern and do not deny it: "no lead paint" says nothing of lead.

    Where they may mean that some is left, they are taken to say so.
    Shapes: one text. Range: English. Raises: nothing. Source: our judgement.
    """
    return any(not _is_denied(found, words) for found in pattern.finditer(words))


def _is_denied(found: re.Match[str], words: str) -> bool:
    before, after = words[: found.start()], words[found.end() :]
    if _ELSEWHERE.search(before + after):
        return False
    return bool(_DENIED_BEFORE.search(before) or _DENIED_AFTER.search(after))


def denies(pattern: re.Pattern[str], words: str) -> bool:
    """Whether words hold a pattern only to deny it.

    Shapes: one text. Range: English. Raises: nothing. Source: our judgement.
    """
    return pattern.search(words) is not None and not says(pattern, words)


def any_says(pattern: re.Pattern[str], conditions: Iterable[str]) -> bool:
    """Whether one of several conditions says so.

    Shapes: any number of texts. Range: English. Raises: nothing. Source: `says`.
    """
    return any(says(pattern, words) for words in conditions)
