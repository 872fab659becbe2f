"""What the list of houses and the form of a new one show."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from server.files.faults import Fault
from server.storage.houses import HouseLine, Order, Shelf
from server.storage.regions import RegionVersion
from server.survey.checks import KIND_OF
from server.survey.constructions import constructions
from server.survey.form import ATTICS, FACES, FOUNDATIONS, FUELS, STOREYS

CONSTRUCTIONS = ("wall", "foundation_wall", "window")  # what is seen at the first look
_NOT_OF_ROOMS = ("knee wall", "attic gable", "rim joist", "foundation wall")


def list_context(
    lines: Sequence[HouseLine], shelf: Shelf, search: str, order: Order
) -> dict[str, Any]:
    """The houses on a shelf."""
    return {"lines": lines, "shelf": shelf, "search": search, "order": order}


def new_context(
    regions: Sequence[RegionVersion],
    values: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
    file_faults: Sequence[Fault] = (),
) -> dict[str, Any]:
    """The forms of a new house, with what was typed and what was wrong with it.

    regions: those of the firm.
    """
    return {
        "values": values or {},
        "faults": faults or {},
        "file_faults": file_faults,
        "regions": [(region.key, region.defaults.name) for region in regions],
        "faces": FACES,
        "storeys": [f"{each:g}" for each in STOREYS],
        "fuels": FUELS,
        "foundations": FOUNDATIONS,
        "attics": ATTICS,
        "offered": {
            field: [
                each.name
                for each in constructions().values()
                if KIND_OF[field] in each.kinds
                and (field != "wall" or not each.name.startswith(_NOT_OF_ROOMS))
            ]
            for field in CONSTRUCTIONS
        },
    }
