"""The demo house as a document with keys, and its parts by name."""

from __future__ import annotations

from typing import Any

from server.core.comparison import Comparison
from server.files.building import build_survey
from server.files.house_file import HouseFile
from server.files.keyed import place_of
from server.storage.house_rows import with_keys
from tests.stored_houses import demo_file


def demo_document() -> dict[str, Any]:
    """The demo house with new keys."""
    return with_keys(demo_file()).as_stored()


def key_named(document: dict[str, Any], collection: str, name: str) -> str:
    """The key of the part with a name."""
    parts = document[collection]
    if isinstance(parts, dict):
        return str(parts[name]["key"])
    return next(str(part["key"]) for part in parts if part["name"] == name)


def place(document: dict[str, Any], collection: str, name: str, *steps: str) -> str:
    """A place within the part with a name."""
    return place_of(collection, key_named(document, collection, name), *steps)


def compared(document: dict[str, Any]) -> Comparison:
    """The comparison of a document whose strategies all fit."""
    survey = build_survey(HouseFile.from_stored(document))
    assert survey.faults == ()
    return survey.project.compare()
