"""Every change to a stored house: read it under a lock, change its document, check it, save it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pydantic import ValidationError

from server.files.building import Survey, build_survey
from server.files.faults import BadFile, Fault
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
    houses: Houses,
    key: str,
    by: str,
    change: Callable[[Document], Document | None],
    *,
    may_break_strategies: bool = False,
) -> Changed:
    """Save what a function makes of a house's document.

    The function may change the document it is given, or return another. What it raises ends the
    change. A survey goes on though a strategy no longer fits it; a change of strategies alone makes
    none of them unfit, unless it may. Raises: NoSuchHouse; BadFile with every fault of the changed
    house, nothing saved.
    """
    before = houses.load(key, to_change=True)
    document = before.house.as_stored()
    house = with_keys(checked(change(document) or document))
    survey = build_survey(house)
    broken = _broken(before.house, survey)
    if broken and not may_break_strategies:
        raise BadFile(broken)
    version = houses.save_house(key, house, before.version, by)
    return Changed(before, house, survey, version)


def _broken(before: HouseFile, after: Survey) -> list[Fault]:
    """What is wrong with strategies that fitted before nothing but strategies was changed."""
    if not after.faults or _without_strategies(before) != _without_strategies(after.file):
        return []
    unfit = build_survey(before).not_fitting
    fitted = {each.key for index, each in enumerate(before.strategies) if index not in unfit}
    by_key = ((after.file.strategies[i].key, faults) for i, faults in after.not_fitting.items())
    return [fault for key, faults in by_key if key in fitted for fault in faults]


def _without_strategies(house: HouseFile) -> Document:
    return house.as_stored() | {"strategies": []}


def checked(document: Document) -> HouseFile:
    """The house of a document. Raises: BadFile."""
    try:
        return HouseFile.from_stored(document)
    except ValidationError as error:
        raise BadFile(faults_of(error)) from None
