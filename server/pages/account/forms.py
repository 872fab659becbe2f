"""The forms of one's own account: a password, the units."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Request

from server.pages.addresses import local_path
from server.pages.form_texts import secret_of
from server.units import System


@dataclass(frozen=True, slots=True, repr=False)
class NewPassword:
    """The password so far, and the new one twice."""

    current: str
    new: str
    again: str


@dataclass(frozen=True, slots=True)
class ChosenUnits:
    """The units asked for and the path to go back to."""

    units: System
    then: str


async def _new_password(request: Request) -> NewPassword:
    async with request.form() as form:
        return NewPassword(*(secret_of(form, name) for name in ("current", "new", "again")))


async def _chosen_units(request: Request) -> ChosenUnits:
    async with request.form() as form:
        units: System = "si" if form.get("units") == "si" else "ip"
        return ChosenUnits(units, local_path(form.get("return"), "/"))


NewPasswordForm = Annotated[NewPassword, Depends(_new_password)]
UnitsForm = Annotated[ChosenUnits, Depends(_chosen_units)]
