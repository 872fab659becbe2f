"""The crew's sheet of a strategy, to be printed."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from server.files.keyed import Gone
from server.pages.access import SignedIn, TheHouses
from server.pages.house.context import OpenHouse
from server.pages.house.field_sheet import field_sheet
from server.pages.house.strategy_context import result_of, strategy_entry
from server.rendering import page

router = APIRouter()


@router.get("/strategies/{part:key}/field-sheet")
def sheet(
    request: Request, key: str, part: str, houses: TheHouses, person: SignedIn
) -> HTMLResponse:
    """What the crew needs to know of one strategy. Raises: Gone."""
    opened = OpenHouse(houses.load(key), person)
    entry = strategy_entry(opened, part)
    result = result_of(opened, entry.name)
    if result is None:
        raise Gone(part)
    context = field_sheet(opened, entry, result)
    context["strategy_path"] = f"/houses/{key}/strategies/{part}"
    return page(request, "house/field_sheet.html", context)
