"""One value of a house is edited in place."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from server.actions.change_house import Changed, change_house
from server.actions.renaming import rename
from server.files.differences import text_of
from server.files.keyed import Document, Gone, part_at, set_value, split, value_at
from server.files.schema import NAMED, alternatives_of
from server.storage.houses import Houses


@dataclass(frozen=True, slots=True)
class Edit:
    """A new value for a place, as the file writes it (None takes it away).

    seen: the values that stood in the field while it was edited: the one the page was made with,
    and those that the same page has sent since.
    """

    place: str
    seen: Sequence[Any]
    value: Any


class Conflict(Exception):
    """Somebody else changed the field meanwhile. theirs: what stands there now, as text."""

    def __init__(self, theirs: Any) -> None:
        super().__init__()
        self.theirs = theirs

    @property
    def theirs_text(self) -> str | None:
        """What stands there now, as a line of text; None where nothing does."""
        return text_of(self.theirs)


def edit_value(houses: Houses, key: str, edit: Edit, by: str) -> Changed:
    """Save one value. Raises: NoSuchHouse, Gone, Conflict, BadFile; then nothing is saved."""

    def change(document: Document) -> None:
        name = _name_edited(document, edit.place)
        current = _value_now(document, edit.place) if name is None else name
        if current != edit.value and current not in edit.seen:
            raise Conflict(current)
        if edit.place.endswith("/name"):
            rename(document, edit.place, edit.value)
        elif current is not None or edit.value is not None:
            _put(document, edit.place, edit.value)

    return change_house(houses, key, by, change)


def _value_now(document: Document, place: str) -> Any:
    """What stands at a place; None also where what would hold it is not there yet. Raises: Gone."""
    try:
        return value_at(document, place)
    except Gone:
        collection, *rest = split(place)
        if collection in NAMED:
            part_at(document, collection, *rest[:1])
        set_value(deepcopy(document), place, "")  # a part of a list is there or gone
        return None


def _put(document: Document, place: str, value: Any) -> None:
    """Set a value; of alternatives that exclude each other, the others go."""
    holder, _slash, field = place.rpartition("/")
    if value is not None:
        for other in alternatives_of(field):
            with suppress(Gone):
                set_value(document, f"{holder}/{other}", None)
        if place in ("climate/region", "climate/station"):
            document["climate"] = {}  # a region or station stands alone
    set_value(document, place, value)
    if value is None and value_at(document, holder) == {}:
        set_value(document, holder, None)  # what has nothing in it is not there


def _name_edited(document: Document, place: str) -> str | None:
    """The name of a part that stands under it in a mapping; None for any other place."""
    collection, *rest = split(place)
    if collection in NAMED and len(rest) == 2 and rest[1] == "name":
        part = value_at(document, place.rsplit("/", 1)[0])
        for name, each in document[collection].items():
            if each is part:
                return str(name)
    return None
