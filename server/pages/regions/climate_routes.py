"""The climate of one house: a station near its ZIP code, or a weather file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from gettext import gettext as _
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from starlette.datastructures import UploadFile

from server.actions.change_climate import change_climate
from server.files.building import build_survey
from server.files.climate_csv import LARGEST_WEATHER, BadWeather, read_weather
from server.files.faults import BadFile
from server.files.own_climate import own_climate
from server.pages.access import SignedIn, TheHouses
from server.pages.form_texts import Posted, text_of, whole_number
from server.regions.stations import stations
from server.regions.zip_places import NearStation, NoSuchZip, ZipPlace, stations_near, zip_place
from server.regions.zones import zone_by_degree_days
from server.rendering import page
from server.storage.houses import Stored
from server.units import UnitError, read_quantity

router = APIRouter(prefix="/houses/{key:key}/climate")
LARGEST_FORM = LARGEST_WEATHER + 100_000


@dataclass(frozen=True, slots=True)
class Search:
    """What was typed, where it lies, what is near, and what was wrong with it, by field."""

    zip: str = ""
    elevation: str = ""
    place: ZipPlace | None = None
    near: Sequence[NearStation] = ()
    zip_fault: str = ""
    elevation_fault: str = ""


def search_of(zip_code: str, elevation: str) -> Search:
    """The stations near a ZIP code and, where it is given, a height."""
    typed = zip_code.replace("\0", "")[:20], elevation.replace("\0", "")[:40]
    if not typed[0]:
        return Search(*typed)
    try:
        place = zip_place(typed[0])
    except NoSuchZip as refusal:
        words = (
            _("Write the five digits of a US ZIP code.")
            if refusal.malformed
            else _("The place of this ZIP code is not known; try one next to it.")
        )
        return Search(*typed, zip_fault=words)
    height = None
    if typed[1]:
        try:
            height = read_quantity(typed[1], "length")
        except UnitError as refusal:
            return Search(*typed, place=place, elevation_fault=str(refusal))
    return Search(*typed, place=place, near=stations_near(place, height))


@dataclass(frozen=True, slots=True)
class WeatherForm:
    """A weather file, and the version that the page with its form showed.

    content: a byte more than is allowed, where the file is too large. version: -1 for none.
    """

    content: bytes
    version: int


async def weather_form(request: Request) -> WeatherForm:
    """What the form of a weather file sends."""
    async with request.form(max_part_size=LARGEST_FORM) as form:
        upload = form.get("file")
        content = b""
        if isinstance(upload, UploadFile) and upload.filename:
            content = await upload.read(LARGEST_WEATHER + 1)
        return WeatherForm(content, whole_number(form, "version"))


WeatherUpload = Annotated[WeatherForm, Depends(weather_form)]


@router.get("")
def shown(
    request: Request,
    key: str,
    houses: TheHouses,
    _person: SignedIn,
    zip: str = "",
    elevation: str = "",
) -> HTMLResponse:
    """The climate the house has, and the ways to another."""
    return _page(request, houses.load(key), search_of(zip, elevation))


@router.post("/station")
def choose(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Take the climate of a station."""
    station = text_of(form, "station")
    if station not in stations():
        stored = houses.load(key)
        return _page(request, stored, Search(), faults=[_("Choose a station from the list.")])
    climate = {"station": station}
    place = search_of(text_of(form, "zip"), "").place
    if place is not None and place.zone:
        climate["iecc_zone"] = place.zone
    change_climate(houses, key, climate, person.name)
    return RedirectResponse(f"/houses/{key}/climate", status_code=303)


@router.post("/file")
def from_file(
    request: Request, sent: WeatherUpload, key: str, houses: TheHouses, person: SignedIn
) -> Response:
    """Take the climate of a weather file; what it does not tell stays as it is."""
    stored = houses.load(key, to_change=True)
    try:
        weather = read_weather(sent.content)
        base = build_survey(stored.house).house.climate
        change_climate(houses, key, own_climate(weather, base), person.name)
    except BadWeather as refusal:
        return _page(request, stored, Search(), faults=[str(fault) for fault in refusal.faults])
    except BadFile as refusal:
        return _page(request, stored, Search(), faults=[str(fault) for fault in refusal.faults])
    return RedirectResponse(f"/houses/{key}/climate", status_code=303)


def _page(
    request: Request, stored: Stored, search: Search, *, faults: Sequence[str] = ()
) -> HTMLResponse:
    climate = build_survey(stored.house).house.climate
    context = {
        "stored": stored,
        "climate": climate,
        "zone_by_days": zone_by_degree_days(climate),
        "search": search,
        "faults": faults,
    }
    wrong = faults or search.zip_fault or search.elevation_fault
    return page(request, "regions/climate.html", context, status=422 if wrong else 200)
