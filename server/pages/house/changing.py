"""A form that changes a house's structure: saved, or back on its page with what is wrong."""

from __future__ import annotations

from collections.abc import Callable
from gettext import gettext as _
from typing import Any

from fastapi import Request
from fastapi.responses import Response
from starlette.datastructures import FormData

from server.accounts.person import Person
from server.actions.change_house import Changed, change_house
from server.actions.structure import StillUsed
from server.files.faults import BadFile, Fault
from server.files.house_file import BASES
from server.files.keyed import Document
from server.files.places import steps_of
from server.files.schema import Input
from server.pages.form_texts import text_of
from server.pages.house.adding import Adding
from server.pages.house.showing import back_to, page_asked, show
from server.pages.house.typed import NotRead, raw_value
from server.storage.houses import Houses

_SENT_AS = {"depth": "thickness", "assembly": "built"}  # where a form has another name for it
GENERAL = ""  # the field of a fault that belongs to no field


class Refused(Exception):
    """The form cannot be followed; faults: words by field."""

    def __init__(self, faults: dict[str, str]) -> None:
        super().__init__()
        self.faults = faults


def changed_or_shown(
    request: Request,
    key: str,
    houses: Houses,
    person: Person,
    form: FormData,
    change: Callable[[Document], Any],
    *,
    then: Callable[[Changed], tuple[str, str]] | None = None,
) -> Response:
    """Change a house as a form says, and go on to a page and anchor: the form's page, or `then`."""
    page = page_asked(form)
    stored = houses.load(key, to_change=True)

    def applied(document: Document) -> None:
        change(document)

    try:
        changed = change_house(houses, key, person.name, applied)
    except (BadFile, StillUsed, Refused) as refusal:
        values = {name: value for name, value in form.items() if isinstance(value, str)}
        adding = Adding(text_of(form, "form"), values, _faults(refusal, values))
        return show(request, stored, person, page, extra={"adding": adding}, status=422)
    if then is None:
        return back_to(key, page, text_of(form, "anchor"))
    return back_to(key, *then(changed))


def _faults(refusal: Exception, values: dict[str, str]) -> dict[str, str]:
    if isinstance(refusal, Refused):
        return refusal.faults
    if isinstance(refusal, StillUsed):
        words = _("“{name}” cannot go while these stand on it: {users}.")
        return {GENERAL: words.format(name=refusal.name, users=", ".join(refusal.users))}
    assert isinstance(refusal, BadFile)
    faults: dict[str, str] = {}
    for fault in refusal.faults:
        faults.setdefault(_field(fault, values), fault.words)
    return faults


def _field(fault: Fault, values: dict[str, str]) -> str:
    """The form's field a fault belongs to: the innermost step that is one, or what was named."""
    for step in reversed(steps_of(fault.place)):
        field = _SENT_AS.get(str(step), str(step))
        if field in values:
            return field
        if step == values.get("name"):
            return "name"
    return GENERAL


def quantity(form: FormData, name: str, kind: str, *, needed: bool = True) -> Any:
    """A quantity of a form with the form's basis. Raises: Refused where it is needed and empty."""
    return _read(form, name, Input("quantity", kind), needed)


def number(form: FormData, name: str, *, needed: bool = True) -> Any:
    """A plain number of a form with the form's basis. Raises: Refused."""
    return _read(form, name, Input("number"), needed)


def _read(form: FormData, name: str, taken: Input, needed: bool) -> Any:
    basis = text_of(form, "basis")
    try:
        value = raw_value(taken, text_of(form, name), basis if basis in BASES else "")
    except NotRead as refusal:
        raise Refused({name: str(refusal)}) from None
    if value is None and needed:
        raise Refused({name: _("must be given")})
    return value


def name_in(form: FormData, field: str = "name") -> str:
    """A name of a form. Raises: Refused where it is empty."""
    name = text_of(form, field)
    if not name:
        raise Refused({field: _("must be given")})
    return name
