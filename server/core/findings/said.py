"""Whether words of a survey say that something is there, or that it is not."""

from __future__ import annotations

import re
from collections.abc import Iterable

_DENIED_BEFORE = re.compile(
    r"\b(no|not|never|without|free of|past|repaired|mended)\b[\w\s-]{0,20}$", re.IGNORECASE
)
_DENIED_AFTER = re.compile(r"^[\w\s:,-]{0,20}\b(none|removed|negative|free)\b", re.IGNORECASE)


def says(pattern: re.Pattern[str], words: str) -> bool:
    """Whether words hold a pattern and do not deny it: "no lead paint" says nothing of lead.

    Shapes: one text. Range: English. Raises: nothing. Source: our judgement.
    """
    return any(
        not _DENIED_BEFORE.search(words[: found.start()])
        and not _DENIED_AFTER.search(words[found.end() :])
        for found in pattern.finditer(words)
    )


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
