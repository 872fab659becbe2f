"""The houses of a firm: found, begun, copied, put away."""

from __future__ import annotations

import json
from gettext import gettext as _
from typing import Annotated, get_args

from fastapi import APIRouter, Depends, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from server.actions.apply_region import begun_in
from server.actions.change_house import checked
from server.actions.structure import free_name
from server.files.building import build_survey
from server.files.faults import BadFile
from server.files.house_file import HouseFile
from server.files.reading import read_house_file
from server.pages.access import SignedIn, TheHouses
from server.pages.form_texts import Posted, text_of
from server.pages.houses.context import list_context, new_context
from server.pages.houses.forms import read_new_house, uploaded
from server.pages.regions.context import zone_of
from server.pages.regions.routes import TheRegions
from server.rendering import page
from server.storage.house_rows import with_new_keys
from server.storage.houses import Houses, Order, Shelf
from server.survey.outline import OutlineError, house_from_outline

router = APIRouter(prefix="/houses")
Uploaded = Annotated[bytes, Depends(uploaded)]


@router.get("")
def listed(
    request: Request,
    houses: TheHouses,
    _person: SignedIn,
    q: str = "",
    order: str = "changed",
    shelf: str = "open",
) -> HTMLResponse:
    """The list; what the address asks for and does not exist falls back."""
    search = q.replace("\0", "")[:200]
    chosen_shelf: Shelf = shelf if shelf in get_args(Shelf) else "open"  # type: ignore[assignment]
    chosen: Order = order if order in get_args(Order) else "changed"  # type: ignore[assignment]
    lines = houses.listed(chosen_shelf, search, chosen)
    context = list_context(lines, chosen_shelf, search, chosen)
    return page(request, "houses/page.html", context, fragment="houses/_list.html")


@router.get("/new")
def new(request: Request, _person: SignedIn, regions: TheRegions) -> HTMLResponse:
    """The forms that begin a house."""
    return page(request, "houses/new.html", new_context(regions.current()))


@router.post("")
def begin(
    request: Request, form: Posted, houses: TheHouses, person: SignedIn, regions: TheRegions
) -> Response:
    """Begin a house from its outline; every part of it can be edited after."""
    known = regions.current()
    sent = read_new_house(form, {each.key: zone_of(each.defaults) for each in known})
    faults = dict(sent.faults)
    if sent.outline is not None:
        try:
            region = regions.load(sent.outline.region)
            house = begun_in(house_from_outline(sent.outline), region)
            if sent.station is not None:
                zone = {"iecc_zone": sent.zone} if sent.zone else {}
                climate = {"station": sent.station} | zone
                house = checked(house.as_stored() | {"climate": climate})
            build_survey(house)
            return _to(houses.add(house, person.name))
        except OutlineError as refusal:
            faults[refusal.field] = refusal.words
        except BadFile as refusal:
            faults["name"] = "; ".join(map(str, refusal.faults))
    return page(request, "houses/new.html", new_context(known, sent.values, faults), status=422)


@router.post("/from-file")
def from_file(
    request: Request,
    content: Uploaded,
    houses: TheHouses,
    person: SignedIn,
    regions: TheRegions,
) -> Response:
    """Store a house file."""
    try:
        house, _document = read_house_file(content)
        build_survey(house)
    except BadFile as refusal:
        text = content.decode("utf-8", errors="replace")
        context = new_context(regions.current(), {"text": text}, file_faults=refusal.faults)
        return page(request, "houses/new.html", context, status=422)
    return _to(houses.add(house, person.name))


@router.get("/{key:key}/file")
def file(key: str, houses: TheHouses, _person: SignedIn) -> Response:
    """The house file, every value as it was typed."""
    house = houses.load(key).house
    return Response(
        json.dumps(house.as_written(), indent=2, ensure_ascii=False),
        media_type="application/json",
        headers={"Content-Disposition": 'attachment; filename="house.json"'},
    )


@router.post("/{key:key}/copy")
def copy(key: str, houses: TheHouses, person: SignedIn) -> Response:
    """Copy a house, with keys of its own."""
    house = houses.load(key).house
    taken = [line.name for line in houses.listed("open")]
    name = free_name(_("{name}, copy").format(name=house.name)[:190], taken)
    copied = HouseFile.from_stored(house.as_stored() | {"name": name})
    return _to(houses.add(with_new_keys(copied), person.name))


@router.post("/{key:key}/shelf")
def put(key: str, form: Posted, houses: TheHouses, _person: SignedIn) -> Response:
    """Archive a house, put it into the bin, or take it out again."""
    houses.load(key)
    _put(houses, key, text_of(form, "shelf"))
    return RedirectResponse(f"/houses?shelf={text_of(form, 'from') or 'open'}", status_code=303)


def _put(houses: Houses, key: str, shelf: str) -> None:
    if shelf == "bin":
        houses.bin(key, binned=True)
    elif shelf == "archived":
        houses.archive(key, archived=True)
    elif shelf == "open":
        houses.bin(key, binned=False)
        houses.archive(key, archived=False)


def _to(key: str) -> RedirectResponse:
    return RedirectResponse(f"/houses/{key}", status_code=303)
