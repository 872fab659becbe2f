"""The form that sends an offer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from gettext import gettext as _

from starlette.datastructures import FormData

from server.actions.send_offer import Wish
from server.pages.form_texts import text_of, whole_number

LONGEST_NOTE = 2000
MOST_DAYS = 365
USUAL_DAYS = "60"


@dataclass(frozen=True, slots=True)
class OfferForm:
    """What was typed, and what was wrong with it, by field; `page` for the whole."""

    note: str = ""
    days: str = USUAL_DAYS
    faults: Mapping[str, str] = field(default_factory=dict)


def wish_of(form: FormData) -> Wish | OfferForm:
    """What the sender says, or the form with its faults."""
    note, days = text_of(form, "note"), text_of(form, "days")
    faults = {}
    if len(note) > LONGEST_NOTE:
        faults["note"] = _("At most {most} characters.").format(most=LONGEST_NOTE)
    number = whole_number(form, "days")
    if days and not 1 <= number <= MOST_DAYS:
        faults["days"] = _("A whole number of days from 1 to {most}, or nothing.").format(
            most=MOST_DAYS
        )
    if faults:
        return OfferForm(note, days, faults)
    return Wish(note, number if days else None, whole_number(form, "seen"))


def refused(wish: Wish, words: str) -> OfferForm:
    """The form of a wish that was not fulfilled."""
    return OfferForm(wish.note, "" if wish.days is None else str(wish.days), {"page": words})
