"""An earlier version of a house is brought back, as a new one."""

from __future__ import annotations

from server.actions.change_house import Changed, change_house
from server.storage.houses import Houses, StaleVersion


def restore_version(houses: Houses, key: str, version: int, seen: int, by: str) -> Changed:
    """Bring a version back. seen: the version on the page; nothing newer is undone unseen.

    Raises: NoSuchHouse, StaleVersion.
    """
    if houses.load(key, to_change=True).version != seen:
        raise StaleVersion(key)
    earlier = houses.version(key, version).as_stored()
    return change_house(houses, key, by, lambda _document: earlier, may_break_strategies=True)
