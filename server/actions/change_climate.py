"""Give a house the climate of a station, or of a weather file."""

from __future__ import annotations

from typing import Any

from server.actions.change_house import change_house
from server.files.keyed import Document
from server.storage.houses import Houses


def change_climate(houses: Houses, key: str, climate: dict[str, Any], by: str) -> None:
    """Put another climate in. Raises: NoSuchHouse, BadFile."""

    def change(document: Document) -> None:
        document["climate"] = climate

    change_house(houses, key, by, change)
