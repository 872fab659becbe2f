"""Texts out of a form."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import FormData


def text_of(form: FormData, name: str) -> str:
    """What was typed into a field, without spaces around it; empty where there is no such field."""
    return secret_of(form, name).strip()


def secret_of(form: FormData, name: str) -> str:
    """What was typed into a field, spaces and all."""
    value = form.get(name)
    # PostgreSQL refuses texts with this character, and no keyboard sends it
    return value.replace("\0", "") if isinstance(value, str) else ""


def whole_number(form: FormData, name: str) -> int:
    """A whole number that a page sends of itself; -1 where it is none."""
    text = text_of(form, name)
    return int(text) if text.isdecimal() and len(text) < 10 else -1


async def _posted(request: Request) -> FormData:
    return await request.form()


Posted = Annotated[FormData, Depends(_posted)]
"""The form of a request."""
