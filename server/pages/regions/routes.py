"""The regions of a firm: everybody reads them, its lead changes them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from gettext import gettext as _
from typing import Annotated, Any

from fastapi import APIRouter, Depends, HTTPException, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from starlette.datastructures import FormData

from server.accounts.person import Person
from server.files.building import climate_of
from server.files.climate_csv import BadWeather, read_weather
from server.files.own_climate import own_climate
from server.pages.access import DatabaseSession, Lead, SignedIn, TheClock
from server.pages.form_texts import Posted, text_of, whole_number
from server.pages.regions.climate_routes import Search, WeatherUpload, search_of
from server.pages.regions.context import (
    form_context,
    limits_in,
    months_context,
    region_lines,
    stations_context,
)
from server.pages.regions.forms import PAGE, SentForm, checked_with_climate, read_region, values_of
from server.pages.regions.months_form import month_values, read_months
from server.rendering import page
from server.storage.houses import StaleVersion
from server.storage.regions import NoSuchRegion, Regions, RegionTaken, RegionVersion

router = APIRouter(prefix="/regions")
LONGEST_SEARCH = 100
LONGEST_NAME = 100
Show = Callable[[RegionVersion, Mapping[str, str], Mapping[str, str]], dict[str, Any]]


def the_regions(session: DatabaseSession, person: SignedIn, clock: TheClock) -> Regions:
    """The regions of the firm of who asks."""
    return Regions(session, person.firm_key, clock)


TheRegions = Annotated[Regions, Depends(the_regions)]


def region_named(regions: Regions, name: str) -> RegionVersion:
    """A region as it stands; a page that is not there where the firm has none of this name."""
    try:
        return regions.load(name.replace("\0", ""))
    except NoSuchRegion:
        raise HTTPException(404) from None


@router.get("")
def listed(request: Request, person: SignedIn, regions: TheRegions) -> HTMLResponse:
    """The regions and what they hold."""
    return page(request, "regions/page.html", region_lines(regions.current(), person.is_lead))


@router.post("")
def add(request: Request, form: Posted, lead: Lead, regions: TheRegions) -> Response:
    """Add a region of the firm's own, which begins as a copy of another."""
    name, like = text_of(form, "name"), text_of(form, "like")
    known = {each.key: each for each in regions.current()}
    faults = {}
    if not 0 < len(name) <= LONGEST_NAME:
        faults["name"] = _("A name of 1 to {most} characters is needed.").format(most=LONGEST_NAME)
    if like not in known:
        faults["like"] = _("Choose the region that it begins as a copy of.")
    if not faults:
        note = _("Begun as a copy of {name}.").format(name=known[like].defaults.name)
        copied = known[like].defaults.model_copy(update={"name": name, "note": note})
        try:
            key = regions.add(copied, lead.name)
            return RedirectResponse(f"/regions/{key}", status_code=303)
        except RegionTaken:
            faults["name"] = _("There is a region of this name already.")
    context = region_lines(list(known.values()), lead.is_lead, {"name": name, "like": like}, faults)
    return page(request, "regions/page.html", context, status=422)


@router.get("/{name}")
def edit(request: Request, name: str, lead: Lead, regions: TheRegions) -> HTMLResponse:
    """The form of a region."""
    region = region_named(regions, name)
    context = form_context(region, values_of(region.defaults), {})
    context["limits_like"] = limits_in(region, lead.units)
    return page(request, "regions/edit.html", context)


@router.post("/{name}")
def change(request: Request, name: str, form: Posted, lead: Lead, regions: TheRegions) -> Response:
    """Save the form as a new version; houses stay as they are."""
    region = region_named(regions, name)
    sent = read_region(form, region.defaults, lead.units)
    return _saved_or_shown(
        request, lead, regions, region, form=form, sent=sent, template="edit", show=form_context
    )


@router.get("/{name}/months")
def months(request: Request, name: str, _lead: Lead, regions: TheRegions) -> HTMLResponse:
    """The form of twelve months of one's own."""
    region = region_named(regions, name)
    values = month_values(region.defaults)
    return page(request, "regions/months.html", months_context(region, values, {}))


@router.post("/{name}/months")
def change_months(
    request: Request, name: str, form: Posted, lead: Lead, regions: TheRegions
) -> Response:
    """Put twelve months of one's own in place of the region's climate."""
    region = region_named(regions, name)
    sent = read_months(form, region.defaults)
    return _saved_or_shown(
        request, lead, regions, region, form=form, sent=sent, template="months", show=months_context
    )


@router.post("/{name}/weather-file")
def from_file(
    request: Request, sent: WeatherUpload, name: str, lead: Lead, regions: TheRegions
) -> Response:
    """Take the climate of a weather file; what it does not tell stays as it is."""
    region = region_named(regions, name)
    climate = region.defaults.climate
    try:
        base = climate_of(climate)
        made = own_climate(read_weather(sent.content), base)
        defaults, faults = checked_with_climate(region.defaults, made, {})
        if defaults is not None:
            regions.save(region.key, defaults, sent.version, lead.name)
            return RedirectResponse(f"/regions/{region.key}", status_code=303)
        words = list(faults.values())
    except BadWeather as refusal:
        words = [str(fault) for fault in refusal.faults]
    except StaleVersion:
        words = [_("The region was changed meanwhile. What stands now is below.")]
    values = month_values(region.defaults)
    context = months_context(region, values, {PAGE: "; ".join(words)})
    return page(request, "regions/months.html", context, status=422)


@router.get("/{name}/stations")
def search(
    request: Request,
    name: str,
    _lead: Lead,
    regions: TheRegions,
    q: str = "",
    zip: str = "",
    elevation: str = "",
) -> HTMLResponse:
    """Stations found by place or state, or near a ZIP code."""
    near = search_of(zip, elevation)
    return _stations(request, region_named(regions, name), q, near=near)


@router.post("/{name}/stations")
def choose(request: Request, name: str, form: Posted, lead: Lead, regions: TheRegions) -> Response:
    """Take a station's climate for the region."""
    region = region_named(regions, name)
    asked = text_of(form, "q")
    climate = {"station": text_of(form, "station")}
    defaults, faults = checked_with_climate(region.defaults, climate, {})
    if defaults is None or faults:
        return _stations(request, region, asked, fault=_("Choose a station from the list."))
    try:
        regions.save(region.key, defaults, whole_number(form, "version"), lead.name)
    except StaleVersion:
        return _stations(request, region, asked, fault=_meanwhile())
    return RedirectResponse(f"/regions/{region.key}", status_code=303)


def _stations(
    request: Request,
    region: RegionVersion,
    asked: str,
    *,
    fault: str | None = None,
    near: Search = Search(),  # noqa: B008  (it cannot change)
) -> HTMLResponse:
    search = asked.replace("\0", "")[:LONGEST_SEARCH]
    context = stations_context(region, search, fault) | {"near": near}
    wrong = fault or near.zip_fault or near.elevation_fault
    return page(request, "regions/stations.html", context, status=422 if wrong else 200)


def _saved_or_shown(
    request: Request,
    lead: Person,
    regions: Regions,
    region: RegionVersion,
    *,
    form: FormData,
    sent: SentForm,
    template: str,
    show: Show,
) -> Response:
    faults = dict(sent.faults)
    if sent.defaults is not None:
        try:
            regions.save(region.key, sent.defaults, whole_number(form, "version"), lead.name)
            return RedirectResponse(f"/regions#{region.key}", status_code=303)
        except StaleVersion:
            faults = {PAGE: _meanwhile()} | _as_it_stands(region, sent.values, template)
    context = show(region, sent.values, faults) | {"limits_like": limits_in(region, lead.units)}
    return page(request, f"regions/{template}.html", context, status=422)


def _meanwhile() -> str:
    return _("The region was changed meanwhile. What stands now is said beside each field.")


def _as_it_stands(region: RegionVersion, typed: Mapping[str, str], form: str) -> dict[str, str]:
    """What each field holds now, where it is not what was typed."""
    values = month_values if form == "months" else values_of
    return {
        name: _("It is “{now}” now.").format(now=now)
        for name, now in values(region.defaults).items()
        if typed.get(name, "") != now
    }
