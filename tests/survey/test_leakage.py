"""A guessed leakage says that it is a guess."""

import pytest

from server.survey.leakage import guessed_leakage

# Common practice, from memory.
BY_YEAR = [
    (1850, 16),
    (1939, 16),
    (1940, 14),
    (1959, 14),
    (1960, 11),
    (1979, 11),
    (1980, 8),
    (1999, 8),
    (2000, 6),
    (2011, 6),
    (2012, 4),
    (2026, 4),
    (None, 12),
]


@pytest.mark.parametrize(("year", "ach50"), BY_YEAR)
def test_leakage_by_age(year, ach50):
    entry = guessed_leakage(year)
    assert entry.value == ach50
    assert entry.as_written() == {"value": ach50, "basis": "guess"}
