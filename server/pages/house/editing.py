"""A value is edited in place: saved and shown at once, or back with what was wrong."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from gettext import gettext as _
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse, Response
from starlette.datastructures import FormData

from server.accounts.person import Person
from server.actions.change_house import Changed
from server.actions.edit_value import Conflict, Edit, edit_value
from server.actions.renaming import NameInUse
from server.files.faults import BadFile, Fault
from server.files.keyed import Gone, split
from server.files.places import steps_of
from server.files.schema import Input, input_at
from server.pages.form_texts import secret_of, text_of
from server.pages.house.context import OpenHouse, Totals
from server.pages.house.fields import Problem
from server.pages.house.labels import LABELS
from server.pages.house.showing import back_to, page_asked, page_context, show
from server.pages.house.strategy_context import result_of, strategy_entry
from server.pages.house.typed import (
    NOT_SAID,
    NotRead,
    basis_of,
    limit_text,
    raw_value,
    seen_text,
    seen_value,
    typed_text,
)
from server.rendering import page as rendered
from server.storage.houses import Houses
from server.units import System

OVERTYPED = (NOT_SAID, "default", "guess")

# after these the page has other fields than before
_RELOADING = {"kind", "inside", "assembly", "u_value", "ach50", "cfm50", "air_changes"} | {
    *("soil", "region", "fuel", "from", "to", "remove"),
    *("humidity_class", "relative_humidity", "edition"),
}


def edited(request: Request, key: str, form: FormData, houses: Houses, person: Person) -> Response:
    """Save a field of a form and answer. Raises: NoSuchHouse, Gone."""
    place, page = text_of(form, "place"), page_asked(form)
    stored = houses.load(key, to_change=True)
    taken = input_at(stored.house.as_stored(), place)
    try:
        value = _value(taken, place, form, person.units)
        seen = _seen(taken, place, form, person.units)
        changed = edit_value(houses, key, Edit(place, seen, value), person.name)
    except (NotRead, NameInUse, Conflict, BadFile) as refusal:
        problem = _problem(refusal, place, form)
        if _wants_part(request):
            return _refused_part(request, OpenHouse(stored, person, problem), page, place)
        return show(request, stored, person, page, problem=problem, status=422)
    if not _wants_part(request):
        return back_to(key, page, _anchor(form))
    if place.rsplit("/", 1)[-1] in _RELOADING:
        return Response(headers={"HX-Refresh": "true"})
    return _saved_part(request, changed, person, page, place)


def _value(taken: Input, place: str, form: FormData, units: System) -> Any:
    text = _as_read(taken, place, secret_of(form, "value"), units)
    value = raw_value(taken, text, _basis(taken, place, form))
    if value is None and place.endswith("/name") and not _is_layer(place):
        raise NotRead(_("A name is needed."))
    return value


def _as_read(taken: Input, place: str, text: str, units: System) -> str:
    """The text of a field with the unit that is understood where none stands. Raises: NotRead."""
    is_limit = place.startswith("energy_code/") and taken.kind == "u_value"
    return limit_text(text, units) if is_limit else text


def _basis(taken: Input, place: str, form: FormData) -> str:
    """How a value is known: a number typed over a guess or a usual one counts as measured.

    Nobody measures what a code asks: a limit counts as read from a document.
    """
    basis = text_of(form, "basis")
    if not taken.has_basis or place.startswith("strategies/") or basis not in OVERTYPED:
        return basis
    stood = seen_value(text_of(form, "seen"))
    typed_over = typed_text(stood) != text_of(form, "value") and basis_of(stood) == basis
    if not typed_over:
        return basis
    return "document" if place.startswith("energy_code/") else "measured"


def _seen(taken: Input, place: str, form: FormData, units: System) -> list[Any]:
    """What stood in the field, and what the same page has sent since, as basis and text."""
    seen = [seen_value(text) for text in form.getlist("seen") if isinstance(text, str)]
    for sent in form.getlist("sent")[-20:]:
        if isinstance(sent, str):
            basis, _separator, text = sent.partition("|")
            with suppress(NotRead):
                read = _as_read(taken, place, text, units)
                seen += [raw_value(taken, read, each) for each in (basis, "measured", "document")]
    return seen


def _is_layer(place: str) -> bool:
    return "/layers/" in place or "/outside/" in place or "/inside/" in place


def _problem(refusal: Exception, place: str, form: FormData) -> Problem:
    seen = tuple(text for text in form.getlist("seen") if isinstance(text, str))
    if isinstance(refusal, Conflict):
        theirs = refusal.theirs_text or _("nothing")
        words: tuple[str, ...] = (
            _(
                "Somebody else wrote “{theirs}” here meanwhile. Save again to put yours there."
            ).format(theirs=theirs),
        )
        seen = (seen_text(refusal.theirs),)
    elif isinstance(refusal, BadFile):
        edited_field = split(place)[-1]
        words = tuple(dict.fromkeys(_fault_words(each, edited_field) for each in refusal.faults))
    elif isinstance(refusal, NameInUse):
        words = (_("“{name}” is the name of another one.").format(name=refusal.name),)
    else:
        words = (str(refusal),)
    return Problem(place, secret_of(form, "value"), text_of(form, "basis"), words, seen)


def _fault_words(fault: Fault, edited_field: str) -> str:
    """As a sentence; what another field lacks is said with its name."""
    *_outer, field = steps_of(fault.place) or [""]
    words = fault.words
    if field != edited_field and field in LABELS:
        words = f"{LABELS[field]}: {words}"
    words = words[:1].upper() + words[1:]
    return words if words.endswith((".", "?")) else words + "."


def _wants_part(request: Request) -> bool:
    return request.headers.get("HX-Request-Type") == "partial"


def _anchor(form: FormData) -> str:
    anchor = text_of(form, "anchor")
    return anchor if anchor.isalnum() else ""


def _refused_part(request: Request, opened: OpenHouse, page: str, place: str) -> HTMLResponse:
    _template, context = page_context(opened, page)
    field = next((each for each in opened.fields.made if each.place == place), None)
    if field is None:
        raise Gone(place)
    return rendered(request, "house/_refused.html", context | {"field": field}, status=422)


def _saved_part(
    request: Request, changed: Changed, person: Person, page: str, place: str
) -> HTMLResponse:
    """The field's state, the page's figures and the whole house, before and after."""
    stored = replace(changed.before, house=changed.house, version=changed.version)
    opened = OpenHouse(stored, person)
    template, context = page_context(opened, page)
    field = next((each for each in opened.fields.made if each.place == place), None)
    if field is None:
        raise Gone(place)
    before = _totals(OpenHouse(changed.before, person), place)
    after = _totals(opened, place)
    change = after.change_from(before) if before and after and template != "seen" else None
    shown = {"field": field, "template": template, "heat_change": change}
    return rendered(request, "house/_saved.html", context | shown)


def _totals(opened: OpenHouse, place: str) -> Totals | None:
    """The house that a place belongs to: as found, or under the strategy that is edited."""
    collection, *rest = split(place)
    if collection != "strategies":
        return opened.totals
    entry = strategy_entry(opened, rest[0])
    result = result_of(opened, entry.name)
    return None if result is None else Totals.of(result)
