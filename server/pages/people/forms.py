"""The form that adds a person, and the one that makes a link."""

from __future__ import annotations

import re
from dataclasses import dataclass
from gettext import gettext as _
from typing import Annotated

from fastapi import Depends, Request

from server.accounts.person import Role
from server.pages.form_texts import text_of

LONGEST_NAME = 200
LONGEST_EMAIL = 254
_EMAIL = re.compile(r"[^\s@<>]+@[^\s@<>]+")


@dataclass(frozen=True, slots=True)
class NewPerson:
    """What was typed. role: a contractor unless a lead was asked for."""

    name: str = ""
    email: str = ""
    role: Role = "contractor"

    def faults(self) -> dict[str, str]:
        """What is wrong, by field."""
        faults = {}
        if not self.name:
            faults["name"] = _("A name is needed.")
        elif len(self.name) > LONGEST_NAME:
            faults["name"] = _("A name has at most {most} characters.").format(most=LONGEST_NAME)
        if len(self.email) > LONGEST_EMAIL or not _EMAIL.fullmatch(self.email):
            faults["email"] = _("This is no email address, such as name@example.com.")
        return faults


async def _new_person(request: Request) -> NewPerson:
    async with request.form() as form:
        role: Role = "lead" if text_of(form, "role") == "lead" else "contractor"
        return NewPerson(text_of(form, "name"), text_of(form, "email"), role)


async def _forgets_password(request: Request) -> bool:
    async with request.form() as form:
        return text_of(form, "forget_password") == "yes"


NewPersonForm = Annotated[NewPerson, Depends(_new_person)]
ForgetsPassword = Annotated[bool, Depends(_forgets_password)]
"""Whether the person's password is to be forgotten with the new link."""
