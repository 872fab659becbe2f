"""The short form of a new house."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from gettext import gettext as _
from typing import Any, cast

from fastapi import Request
from starlette.datastructures import FormData, UploadFile

from server.files.house_file import BASES, Entry
from server.files.reading import LARGEST_FILE
from server.pages.form_texts import text_of
from server.pages.opening.forms import LARGEST_BODY
from server.pages.regions.climate_routes import search_of
from server.survey.form import ATTICS, FACES, FOUNDATIONS, FUELS, STOREYS
from server.survey.outline import Outline, default_outline
from server.units import UnitError, read_quantity

_SIZES = {  # field to the kind of its quantity; those left empty take what is usual
    "length": "length",
    "width": "length",
    "ceiling_height": "length",
    "window_area": "area",
}
_CHOICES: dict[str, tuple[Any, ...]] = {
    "faces": FACES,
    "foundation": FOUNDATIONS,
    "attic": ATTICS,
    "fuel": FUELS,
}


@dataclass(frozen=True, slots=True)
class NewHouse:
    """The form as sent; outline None where faults (words by field) say why not.

    station and zone: near the ZIP code, where one was given.
    """

    values: dict[str, str]
    outline: Outline | None
    faults: dict[str, str]
    station: str | None = None
    zone: str | None = None


def read_new_house(form: FormData, zones: Mapping[str, str | None]) -> NewHouse:
    """An outline out of the form. zones: of the firm's regions, by their keys."""
    values = {name: text_of(form, name) for name in form}
    faults: dict[str, str] = {}
    year = _year(values.get("year_built", ""), faults)
    if not values.get("name"):
        faults["name"] = _("A name is needed: the street, or who lives there.")
    region = values.get("region", "")
    if region not in zones:
        faults["region"] = _("Choose the region.")
    outline = default_outline(values.get("name") or "-", region, year, zones.get(region))
    answers: dict[str, Any] = {}
    for field, kind in _SIZES.items():
        if values.get(field):
            answers[field] = _size(field, kind, values, faults)
    for field, allowed in _CHOICES.items():
        if values.get(field) in allowed:
            answers[field] = values[field]
    near = search_of(values.get("zip", ""), "")
    if near.zip_fault:
        faults["zip"] = near.zip_fault
    _read_storeys(values, answers, faults)
    _read_bedrooms(values, answers, faults)
    for field in ("wall", "foundation_wall", "window"):
        if values.get(field):
            answers[field] = values[field]
    if faults:
        return NewHouse(values, None, faults)
    station = near.near[0].station.id if near.near else None
    zone = near.place.zone if near.place else None
    return NewHouse(values, replace(outline, **answers), faults, station, zone)


def _year(text: str, faults: dict[str, str]) -> int | None:
    if not text:
        return None
    if not (text.isdecimal() and len(text) == 4 and 1600 <= int(text) <= 2100):
        faults["year_built"] = _("Write a year between 1600 and 2100, or leave it empty.")
        return None
    return int(text)


def _size(field: str, kind: str, values: dict[str, str], faults: dict[str, str]) -> Entry | None:
    try:
        value = read_quantity(values[field], kind)
    except UnitError as refusal:
        faults[field] = str(refusal)
        return None
    if value <= 0.0:
        faults[field] = _("must be above 0")
    basis = values.get("basis", "")
    return Entry(values[field], value, basis if basis in BASES else None)


def _read_storeys(values: dict[str, str], answers: dict[str, Any], faults: dict[str, str]) -> None:
    text = values.get("storeys", "")
    if text in [f"{each:g}" for each in STOREYS]:
        answers["storeys"] = float(text)
    elif text:
        faults["storeys"] = _("Choose a number of storeys from the list.")


def _read_bedrooms(values: dict[str, str], answers: dict[str, Any], faults: dict[str, str]) -> None:
    text = values.get("bedrooms", "")
    if text.isdecimal() and len(text) < 4 and int(text) <= 100:
        answers["bedrooms"] = int(text)
    elif text:
        faults["bedrooms"] = _("Write a whole number from 0 to 100.")


async def uploaded(request: Request) -> bytes:
    """The bytes of an uploaded or pasted house file."""
    form = await request.form(max_part_size=LARGEST_BODY)
    upload, pasted = form.get("file"), form.get("text")
    if isinstance(upload, UploadFile) and upload.filename:
        return await upload.read(LARGEST_FILE + 1)
    return cast("str", pasted or "").encode("utf-8", errors="replace")
