"""Strategies are made, copied, edited by component and removed; versions are restored."""

from __future__ import annotations

from gettext import gettext as _

from fastapi import APIRouter, Request
from fastapi.responses import Response

from server.actions import structure
from server.actions.change_house import Changed
from server.actions.make_strategies import begin_strategy, make_strategies
from server.actions.restore_version import restore_version
from server.core.house import OUTDOORS
from server.files.keyed import Document, part_at
from server.pages.access import SignedIn, TheHouses
from server.pages.form_texts import Posted, text_of, whole_number
from server.pages.house.changing import GENERAL, Refused, changed_or_shown
from server.pages.house.showing import back_to
from server.recipes.making import RECIPES
from server.recipes.wrap import BOARD, SCREWS
from server.storage.houses import StaleVersion

router = APIRouter()


@router.post("/strategies")
def add(key: str, form: Posted, houses: TheHouses, person: SignedIn) -> Response:
    """Make strategies from what was found: the three, one of them, or an empty one of one's own."""
    asked = text_of(form, "recipe")
    if asked == "own":
        begin_strategy(houses, key, _("Our own"), person.name)
    else:
        recipes = [each for each in RECIPES if asked in (each, "all")]
        make_strategies(houses, key, recipes, person.name)
    return back_to(key, "strategies")


@router.post("/strategies/{part:key}/copy")
def copy(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Copy a strategy; the copy is one's own."""

    def change(document: Document) -> None:
        structure.copy_strategy(document, part)

    def then(changed: Changed) -> tuple[str, str]:
        return f"strategies/{changed.survey.file.strategies[-1].key}", ""

    return changed_or_shown(request, key, houses, person, form, change, then=then)


@router.post("/strategies/{part:key}/remove")
def remove(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Remove a strategy."""

    def change(document: Document) -> None:
        structure.remove_strategy(document, part)

    def then(_changed: Changed) -> tuple[str, str]:
        return "strategies", ""

    return changed_or_shown(request, key, houses, person, form, change, then=then)


@router.post("/strategies/{part:key}/inside")
def inside(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Say which spaces come inside the thermal boundary."""

    def change(document: Document) -> None:
        strategy = part_at(document, "strategies", part)
        strategy["inside"] = [name for name in form.getlist("inside") if isinstance(name, str)]
        for name in strategy["inside"]:
            strategy.get("spaces", {}).pop(name, None)

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/strategies/{part:key}/changes/{component:key}")
def change_component(
    request: Request,
    key: str,
    part: str,
    component: str,
    form: Posted,
    houses: TheHouses,
    person: SignedIn,
) -> Response:
    """Begin, replace or drop what a strategy does to one component, or leave it as found."""

    def change(document: Document) -> None:
        target = (document, part, component)
        sort = text_of(form, "sort")
        if sort == "none":
            _leave_as_found(*target)
        elif sort == "kind":
            structure.follow_kind(*target)
        elif sort == "own":
            structure.own_change(*target)
        elif sort == "assembly":
            structure.set_change(*target, text_of(form, "assembly"))
        elif sort == "board":
            structure.set_change(
                *target, _board_outside(part_at(document, "components", component))
            )
        elif sort == "fill":
            structure.set_change(*target, {"fill": "dense-pack cellulose"})
        else:
            raise Refused({GENERAL: _("choose what is done")})

    return changed_or_shown(request, key, houses, person, form, change)


def _leave_as_found(document: Document, strategy: str, component: str) -> None:
    try:
        structure.leave_as_found(document, strategy, component)
    except structure.ReachedByKind:
        words = _("only its U is known, so it follows what is done to all of its kind")
        raise Refused({GENERAL: words}) from None


def _board_outside(found: Document) -> Document:
    board = {"material": BOARD, "thickness": "2 in", "name": "board"}
    is_hung_on = found["kind"] in ("wall", "roof") and found["to"] == OUTDOORS
    return {"outside": [board | ({"fasteners": SCREWS} if is_hung_on else {})]}


@router.post("/restore")
def restore(key: str, form: Posted, houses: TheHouses, person: SignedIn) -> Response:
    """Bring an earlier version back, as a new one."""
    wanted, seen = whole_number(form, "version"), whole_number(form, "seen")
    try:
        restore_version(houses, key, wanted, seen, person.name)
    except StaleVersion:
        # somebody saved meanwhile: look at the history before anything is undone
        return back_to(key, "history", "changed")
    return back_to(key, text_of(form, "page"))
