"""A first guess at how leaky a house is."""

from __future__ import annotations

from server.files.house_file import Entry

UNKNOWN_YEAR_ACH50 = 12
_ACH50_BEFORE = ((1940, 16), (1960, 14), (1980, 11), (2000, 8), (2012, 6))
_ACH50_SINCE = 4


def guessed_leakage(year_built: int | None) -> Entry:
    """Air changes an hour at 50 Pa by age of the house, a guess.

    Common practice, from memory: single houses of one age differ by a factor of two or three
    either way. It never replaces a blower-door test, and its basis says so.
    """
    if year_built is None:
        return _guess(UNKNOWN_YEAR_ACH50)
    return _guess(
        next((ach50 for before, ach50 in _ACH50_BEFORE if year_built < before), _ACH50_SINCE)
    )


def _guess(ach50: int) -> Entry:
    return Entry(ach50, float(ach50), "guess")
