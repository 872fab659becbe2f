"""Letters for lists of parts that a sheet would otherwise name again and again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from string import ascii_uppercase

LEAST_NAMES = 4  # shorter lists are said in full


def lettered(lists: Iterable[tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """A letter for every long list that comes more than once, in the order of their first coming.

    A list that others are put together of is lettered, one that is put together of lettered ones
    is not. There are no more than 26.
    """
    counts = Counter(lists)
    again = [names for names, count in counts.items() if count > 1 and len(names) >= LEAST_NAMES]
    basic = [names for names in again if not _is_composed(names, again)]
    return dict(zip(ascii_uppercase, basic, strict=False))


def _is_composed(names: tuple[str, ...], lists: Iterable[tuple[str, ...]]) -> bool:
    within = [set(each) for each in lists if set(each) < set(names)]
    return bool(within) and set().union(*within) == set(names)


def in_short(
    names: tuple[str, ...], groups: Mapping[str, tuple[str, ...]]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Letters that stand for some of the names, and the names that are left; each once."""
    left = list(names)
    letters = []
    for letter, members in sorted(groups.items(), key=lambda each: -len(each[1])):
        if set(members) <= set(left):
            letters.append(letter)
            left = [name for name in left if name not in members]
    return tuple(sorted(letters)), tuple(left)
