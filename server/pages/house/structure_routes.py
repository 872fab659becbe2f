"""Parts of a house are added, copied, moved and removed."""

from __future__ import annotations

from gettext import gettext as _
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.datastructures import FormData

from server.actions import structure
from server.actions.change_house import Changed
from server.files.keyed import Document, split
from server.pages.access import SignedIn, TheHouses
from server.pages.form_texts import Posted, text_of, whole_number
from server.pages.house.changing import Refused, changed_or_shown, name_in, number, quantity
from server.survey.constructions import constructions
from server.survey.leakage import guessed_leakage

router = APIRouter()


@router.post("/parts")
def add_part(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Add a component."""

    def change(document: Document) -> None:
        part: Document = {
            "name": name_in(form),
            "kind": text_of(form, "kind"),
            "from": text_of(form, "from"),
            "to": text_of(form, "to"),
            "area": quantity(form, "area", "area"),
        }
        for field, kind in (
            ("azimuth", "angle"),
            ("exposed_perimeter", "thickness"),
            ("depth_below_grade", "thickness"),
        ):
            value = quantity(form, field, kind, needed=False)
            if value is not None:
                part[field] = value
        _build(document, part, text_of(form, "built"))
        document["components"].append(part)

    def then(changed: Changed) -> tuple[str, str]:
        return f"parts/{changed.survey.file.components[-1].key}", ""

    return changed_or_shown(request, key, houses, person, form, change, then=then)


def _build(document: Document, part: Document, built: str) -> None:
    """What a component is built of: an assembly of the house, or a usual construction."""
    sort, _separator, name = built.partition(":")
    if sort == "house":
        part["assembly"] = name
        return
    construction = constructions().get(name)
    if construction is None:
        raise Refused({"built": _("choose what it is built of")})
    assembly = construction.assembly.model_dump(by_alias=True, exclude_none=True)
    if construction.shgc is not None:
        part |= assembly | {"shgc": construction.shgc.as_written()}
        return
    document.setdefault("assemblies", {}).setdefault(name, assembly)
    part["assembly"] = name


@router.post("/parts/{part:key}/copy")
def copy_part(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Copy a component and go to the copy."""

    def change(document: Document) -> None:
        structure.copy_component(document, part)

    def then(changed: Changed) -> tuple[str, str]:
        keys = [each.key for each in changed.survey.file.components]
        return f"parts/{keys[keys.index(part) + 1]}", ""

    return changed_or_shown(request, key, houses, person, form, change, then=then)


@router.post("/parts/{part:key}/remove")
def remove_part(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Remove a component."""

    def change(document: Document) -> None:
        structure.remove_component(document, part)

    return changed_or_shown(request, key, houses, person, form, change, then=lambda _c: ("", ""))


@router.post("/spaces")
def add_space(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Add a space; it needs a component or air changes to have a temperature."""

    def change(document: Document) -> None:
        name = name_in(form)
        if name in document["spaces"]:
            raise Refused({"name": _("another space has this name")})
        space = {
            "inside": text_of(form, "inside") == "yes",
            "volume": quantity(form, "volume", "volume"),
        }
        air_changes = quantity(form, "air_changes", "air_change_rate", needed=False)
        document["spaces"][name] = space | ({"air_changes": air_changes} if air_changes else {})

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/spaces/{part:key}/remove")
def remove_space(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Remove a space that nothing stands against."""

    def change(document: Document) -> None:
        structure.remove_space(document, part)

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/assemblies")
def add_assembly(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Add an assembly: a usual construction, or one of a single layer to build on."""

    def change(document: Document) -> None:
        chosen = text_of(form, "construction")
        construction = constructions().get(chosen)
        if construction is None and chosen:
            raise Refused({"construction": _("choose one of the list, or leave it empty")})
        name = text_of(form, "name") or chosen
        if not name:
            raise Refused({"name": _("must be given")})
        assemblies = document.setdefault("assemblies", {})
        if name in assemblies:
            raise Refused({"name": _("another assembly has this name")})
        one_layer = {"layers": [{"material": "gypsum board", "thickness": "1/2 in"}]}
        assemblies[name] = (
            one_layer
            if construction is None
            else construction.assembly.model_dump(by_alias=True, exclude_none=True)
        )

    def then(changed: Changed) -> tuple[str, str]:
        added = list(changed.survey.file.assemblies.values())[-1]
        return f"assemblies/{added.key}", ""

    return changed_or_shown(request, key, houses, person, form, change, then=then)


@router.post("/assemblies/{part:key}/copy")
def copy_assembly(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Copy an assembly and go to the copy."""

    def change(document: Document) -> None:
        structure.copy_assembly(document, part)

    def then(changed: Changed) -> tuple[str, str]:
        added = list(changed.survey.file.assemblies.values())[-1]
        return f"assemblies/{added.key}", ""

    return changed_or_shown(request, key, houses, person, form, change, then=then)


@router.post("/assemblies/{part:key}/remove")
def remove_assembly(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Remove an assembly that no component is built of."""

    def change(document: Document) -> None:
        structure.remove_assembly(document, part)

    def then(_changed: Changed) -> tuple[str, str]:
        return "assemblies", ""

    return changed_or_shown(request, key, houses, person, form, change, then=then)


@router.post("/layers")
def add_layer(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Add a layer to an assembly or to a strategy's change."""

    def change(document: Document) -> None:
        holder = split(text_of(form, "holder"))
        structure.add_layer(document, holder, _layer(form), whole_number(form, "position"))

    return changed_or_shown(request, key, houses, person, form, change)


def _layer(form: FormData) -> Document:
    sort = text_of(form, "sort")
    layer: dict[str, Any]
    if sort == "air":
        air_layer = text_of(form, "air_layer") or "unventilated"
        layer = {"air_layer": air_layer, "thickness": quantity(form, "thickness", "thickness")}
    elif sort == "framed":
        layer = {
            "framed": {
                "framing": text_of(form, "framing") or "softwood",
                "fraction": number(form, "fraction"),
                "fill": text_of(form, "fill") or "air",
                "depth": quantity(form, "thickness", "thickness"),
            }
        }
    elif sort == "resistance":
        layer = {"resistance": quantity(form, "resistance", "resistance")}
    else:
        layer = {
            "material": name_in(form, "material"),
            "thickness": quantity(form, "thickness", "thickness"),
        }
    label = quantity(form, "label_resistance", "resistance", needed=False)
    return layer | ({"label_resistance": label} if label else {})


@router.post("/layers/{part:key}/move")
def move_layer(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Move a layer one place outward or inward."""

    def change(document: Document) -> None:
        by = -1 if text_of(form, "to") == "inside" else 1
        structure.move_layer(document, split(text_of(form, "holder")), part, by)

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/layers/{part:key}/remove")
def remove_layer(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Remove a layer."""

    def change(document: Document) -> None:
        structure.remove_layer(document, split(text_of(form, "holder")), part)

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/junctions")
def add_junction(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Add a junction."""

    def change(document: Document) -> None:
        document.setdefault("junctions", []).append(
            {
                "name": name_in(form),
                "from": text_of(form, "from"),
                "to": text_of(form, "to"),
                "length": quantity(form, "length", "thickness"),
                "psi": quantity(form, "psi", "linear_transmittance"),
            }
        )

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/junctions/{part:key}/remove")
def remove_junction(
    request: Request, key: str, part: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Remove a junction."""

    def change(document: Document) -> None:
        structure.remove_junction(document, part)

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/air/guess")
def guess_air(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Put a guess by age where no blower-door test has been made."""

    def change(document: Document) -> None:
        for name in ("cfm50", "air_changes"):
            document["air"].pop(name, None)
        document["air"]["ach50"] = guessed_leakage(document.get("year_built")).as_written()

    return changed_or_shown(request, key, houses, person, form, change)


@router.post("/cooling")
def set_cooling(
    request: Request, key: str, form: Posted, houses: TheHouses, person: SignedIn
) -> Response:
    """Put in a usual air conditioner, or take cooling out."""

    def change(document: Document) -> None:
        if text_of(form, "cooling") == "no":
            document.pop("cooling", None)
        else:
            efficiency = {"value": 3.2, "basis": "default"}
            document.setdefault("cooling", {"fuel": "electricity", "efficiency": efficiency})

    return changed_or_shown(request, key, houses, person, form, change)
