"""The form that opens a house file: an upload or a pasted text, and the units to show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

from server.files.reading import LARGEST_FILE
from server.units import System

LARGEST_BODY = 3 * LARGEST_FILE  # a text travels with its file, and a form adds its own signs


@dataclass(frozen=True, slots=True)
class OpenedFile:
    """What was sent: the house file's bytes and the units to show it in."""

    content: bytes
    units: System

    @property
    def text(self) -> str:
        """The content for a text field; what is no text is shown as question marks."""
        return self.content.decode("utf-8", errors="replace")


def chosen_units(text: object) -> System:
    """The units asked for; inch-pound unless SI is."""
    return "si" if text == "si" else "ip"


async def _opened_file(request: Request) -> OpenedFile:
    async with request.form(max_part_size=LARGEST_BODY) as form:
        upload, pasted = form.get("file"), form.get("text")
        content = b""
        if isinstance(upload, UploadFile) and upload.filename:
            content = await upload.read(LARGEST_FILE + 1)
        elif isinstance(pasted, str):
            content = pasted.encode("utf-8", errors="replace")
        return OpenedFile(content, chosen_units(form.get("units")))


OpenedFileForm = Annotated[OpenedFile, Depends(_opened_file)]
