"""A region's defaults for one house: what they would change, and the change."""

from __future__ import annotations

from gettext import gettext as _

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from server.actions.apply_region import apply_region, preview, region_of
from server.files.faults import BadFile
from server.pages.access import SignedIn, TheHouses
from server.pages.form_texts import Posted, text_of, whole_number
from server.pages.house.told import told
from server.pages.regions.context import refresh_context
from server.pages.regions.routes import TheRegions, region_named
from server.rendering import page
from server.storage.houses import Stored
from server.storage.regions import Regions, RegionVersion

router = APIRouter(prefix="/houses/{key:key}/region")


@router.get("")
def shown(
    request: Request,
    key: str,
    houses: TheHouses,
    regions: TheRegions,
    _person: SignedIn,
    to: str = "",
) -> HTMLResponse:
    """What a region's newest defaults would change."""
    return _page(request, houses.load(key), regions, to)


@router.post("")
def refresh(
    request: Request,
    key: str,
    form: Posted,
    houses: TheHouses,
    regions: TheRegions,
    person: SignedIn,
) -> Response:
    """Put the defaults into the house, if both are still as they were shown."""
    stored = houses.load(key, to_change=True)
    to = text_of(form, "to")
    region = _region(regions, stored, to)
    shown = whole_number(form, "seen"), whole_number(form, "version")
    if shown != (stored.version, region.version):
        words = _("The house or the region was changed meanwhile. This is what would change now.")
        return _page(request, stored, regions, to, notice=words)
    try:
        apply_region(houses, key, region, person.name)
    except BadFile:
        return _page(request, stored, regions, to, notice=_("This house does not take them."))
    return RedirectResponse(f"/houses/{key}", status_code=303)


def _region(regions: Regions, stored: Stored, to: str) -> RegionVersion:
    """The region asked for, or else the house's, or else the first."""
    present, _version = region_of(stored.house.as_stored())
    if to:
        return region_named(regions, to)
    current = regions.current()
    return next((each for each in current if each.key == present), current[0])


def _page(
    request: Request, stored: Stored, regions: Regions, to: str, *, notice: str | None = None
) -> HTMLResponse:
    region = _region(regions, stored, to)
    document = stored.house.as_stored()
    present, version = region_of(document)
    current = regions.current()
    names = {each.key: each.defaults.name for each in current}
    context = refresh_context(
        stored=stored,
        region=region,
        regions=current,
        present=names.get(present or "", present),
        present_version=version,
        notice=notice,
    )
    try:
        found = preview(document, region.key, region.version, region.defaults)
        context["differences"] = told(found)
    except BadFile as refusal:
        context["faults"] = refusal.faults
    return page(request, "regions/house.html", context, status=422 if notice else 200)
