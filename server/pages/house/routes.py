"""The pages of one house, and each of its values edited in place."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from server.actions.apply_region import newer_region
from server.pages.access import SignedIn, TheHouses
from server.pages.form_texts import Posted
from server.pages.house import (
    comparison_routes,
    field_sheet_routes,
    strategy_routes,
    structure_routes,
)
from server.pages.house.editing import edited
from server.pages.house.showing import show
from server.pages.regions.routes import TheRegions

router = APIRouter(prefix="/houses/{key:key}")
router.include_router(comparison_routes.router)
router.include_router(field_sheet_routes.router)
router.include_router(structure_routes.router)
router.include_router(strategy_routes.router)


@router.get("")
def overview(
    request: Request, key: str, houses: TheHouses, person: SignedIn, regions: TheRegions
) -> HTMLResponse:
    """The house by its parts."""
    stored = houses.load(key)
    newer = newer_region(regions, stored.house.as_stored())
    return show(request, stored, person, "", extra={"newer": newer})


@router.get("/systems")
def systems(
    request: Request, key: str, houses: TheHouses, person: SignedIn, regions: TheRegions
) -> HTMLResponse:
    """What stands once: the house itself, air, set points, systems, prices."""
    stored = houses.load(key)
    newer = newer_region(regions, stored.house.as_stored())
    known = [(each.key, each.defaults.name) for each in regions.current()]
    return show(request, stored, person, "systems", extra={"newer": newer, "regions": known})


@router.get("/seen")
def seen(request: Request, key: str, houses: TheHouses, person: SignedIn) -> HTMLResponse:
    """What was seen of the house, how humid it is indoors, the energy code."""
    return show(request, houses.load(key), person, "seen")


@router.get("/spaces")
def spaces(request: Request, key: str, houses: TheHouses, person: SignedIn) -> HTMLResponse:
    """The spaces."""
    return show(request, houses.load(key), person, "spaces")


@router.get("/assemblies")
def assemblies(request: Request, key: str, houses: TheHouses, person: SignedIn) -> HTMLResponse:
    """The assemblies."""
    return show(request, houses.load(key), person, "assemblies")


@router.get("/assemblies/{part:key}")
def assembly(
    request: Request, key: str, part: str, houses: TheHouses, person: SignedIn
) -> HTMLResponse:
    """One assembly and its layers."""
    return show(request, houses.load(key), person, f"assemblies/{part}")


@router.get("/parts/{part:key}")
def part(
    request: Request, key: str, part: str, houses: TheHouses, person: SignedIn
) -> HTMLResponse:
    """One component."""
    return show(request, houses.load(key), person, f"parts/{part}")


@router.get("/junctions")
def junctions(request: Request, key: str, houses: TheHouses, person: SignedIn) -> HTMLResponse:
    """The junctions."""
    return show(request, houses.load(key), person, "junctions")


@router.get("/strategies")
def strategies(request: Request, key: str, houses: TheHouses, person: SignedIn) -> HTMLResponse:
    """The strategies."""
    return show(request, houses.load(key), person, "strategies")


@router.get("/strategies/{part:key}")
def strategy(
    request: Request, key: str, part: str, houses: TheHouses, person: SignedIn
) -> HTMLResponse:
    """One strategy."""
    return show(request, houses.load(key), person, f"strategies/{part}")


@router.get("/strategies/{part:key}/changes/{component:key}")
def change(
    request: Request, key: str, part: str, component: str, houses: TheHouses, person: SignedIn
) -> HTMLResponse:
    """What one strategy does to one component."""
    return show(request, houses.load(key), person, f"strategies/{part}/changes/{component}")


@router.get("/working")
def working(request: Request, key: str, houses: TheHouses, person: SignedIn) -> HTMLResponse:
    """Everything behind the figures of the house as found."""
    return show(request, houses.load(key), person, "working")


@router.get("/history")
def history(request: Request, key: str, houses: TheHouses, person: SignedIn) -> HTMLResponse:
    """Who changed what when."""
    return show(
        request, houses.load(key), person, "history", extra={"revisions": houses.revisions(key)}
    )


@router.post("/edit")
def edit(request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn) -> Response:
    """Save one value."""
    return edited(request, key, form, houses, person)
