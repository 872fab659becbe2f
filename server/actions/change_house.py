"""Every change to a stored house: read it under a lock, change its document, check it, save it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pydantic import ValidationError

from server.files.building import Survey, build_survey
from server.files.faults import BadFile
from server.files.house_file import HouseFile
from server.files.keyed import Document
from server.files.reading import faults_of
from server.storage.house_rows import with_keys
from server.storage.houses import Houses, Stored


@dataclass(frozen=True, slots=True)
class Changed:
    """A house before and after a change that was saved."""

    before: Stored
    house: HouseFile
    survey: Survey
    version: int


def change_house(
    houses: Houses, key: str, by: str, change: Callable[[Document], Document | None]
) -> Changed:
    """Save what a function makes of a house's document.

    The function may change the document it is given, or return another. What it raises ends the
    change. Raises: NoSuchHouse; BadFile with every fault of the changed house, nothing saved.
    """
    before = houses.load(key, to_change=True)
    document = before.house.as_stored()
    house = with_keys(checked(change(document) or document))
    survey = build_survey(house)
    version = houses.save_house(key, house, before.version, by)
    return Changed(before, house, survey, version)


def checked(document: Document) -> HouseFile:
    """The house of a document. Raises: BadFile."""
    try:
        return HouseFile.from_stored(document)
    except ValidationError as error:
        raise BadFile(faults_of(error)) from None
