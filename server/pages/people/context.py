"""What the page of a firm's people shows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from server.accounts.person import Person
from server.pages.people.forms import LONGEST_EMAIL, LONGEST_NAME, NewPerson
from server.storage.people import PersonLine


@dataclass(frozen=True, slots=True)
class NewLink:
    """A sign-in link just made, to be shown this once."""

    name: str
    address: str


def people_context(
    lead: Person,
    people: Sequence[PersonLine],
    *,
    form: NewPerson | None = None,
    faults: Mapping[str, str] | None = None,
    new_link: NewLink | None = None,
) -> dict[str, Any]:
    """faults: what is wrong with the form, by field; `page` is about no field."""
    return {
        "lead": lead,
        "people": people,
        "form": form or NewPerson(),
        "faults": faults or {},
        "new_link": new_link,
        "longest_name": LONGEST_NAME,
        "longest_email": LONGEST_EMAIL,
    }
