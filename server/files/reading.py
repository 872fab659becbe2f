"""From the text of a house file to a checked HouseFile."""

from __future__ import annotations

import json
from gettext import gettext as _
from typing import Any, NoReturn

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from server.files.faults import BadFile, Fault
from server.files.house_file import HouseFile
from server.files.places import shown, written

LARGEST_FILE = 2_000_000  # bytes: a house of a thousand parts is a tenth of it
MOST_FAULTS = 50


def read_document(text: bytes | str) -> Any:
    """The JSON document in a text. Raises BadFile, never anything else."""
    size = len(text)
    if size > LARGEST_FILE:
        _refuse(
            _("the file has {size} bytes; a house file has at most {most}").format(
                size=size, most=LARGEST_FILE
            )
        )
    if isinstance(text, bytes):
        try:
            text = text.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            _refuse(_("the file is not UTF-8 text (byte {place})").format(place=error.start))
    if not text.strip():
        _refuse(_("the file is empty"))
    try:
        return json.loads(
            text.removeprefix("\ufeff"),
            parse_constant=_refuse_constant,
            object_pairs_hook=_no_key_twice,
        )
    except json.JSONDecodeError as error:
        _refuse(
            _("this is not JSON: line {line}, column {column}: {words}").format(
                line=error.lineno, column=error.colno, words=error.msg
            )
        )
    except RecursionError:
        _refuse(_("the brackets are nested too deeply for a house file"))
    except ValueError:
        _refuse(_("a number has more digits than can be read"))


def read_house_file(text: bytes | str) -> tuple[HouseFile, Any]:
    """A checked house file and the raw document beside it. Raises BadFile with every fault."""
    document = read_document(text)
    if not isinstance(document, dict):
        _refuse(_("a house file is a JSON object, with its keys in braces"))
    try:
        return HouseFile.model_validate(document), document
    except ValidationError as error:
        raise BadFile(faults_of(error)) from None
    except RecursionError:
        _refuse(_("the brackets are nested too deeply for a house file"))


def faults_of(error: ValidationError) -> list[Fault]:
    """What Pydantic found, in words of our own."""
    return [_fault(detail) for detail in error.errors(include_url=False)[:MOST_FAULTS]]


def _refuse(words: str) -> NoReturn:
    raise BadFile([Fault("", None, words)])


def _refuse_constant(constant: str) -> NoReturn:
    _refuse(_("{constant} is not a number that can be calculated with").format(constant=constant))


def _no_key_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    result = dict(pairs)
    if len(result) < len(pairs):
        keys = [key for key, _value in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        _refuse(_("the key “{key}” stands twice in one object").format(key=twice[:60]))
    return result


def _fault(detail: ErrorDetails) -> Fault:
    """One of Pydantic's findings as a fault: union tags dropped, words of our own."""
    steps = [step for step in detail["loc"] if not str(step).startswith("<")]
    steps = [step for step in steps if step != "[key]"]
    read = None if detail["type"] in ("missing", "extra_forbidden") else shown(detail["input"])
    return Fault(written(steps), read, _words(detail))


# Pydantic's types of error in words of our own; the braces are filled from its context.
_WORDS = {
    "missing": "must be given",
    "extra_forbidden": "this key is not known here",
    "value_error": "{error}",
    "literal_error": "allowed are {expected}",
    "union_tag_not_found": ("a layer has exactly one of material, air_layer, framed, resistance"),
    "too_short": "at least one is needed",
    "string_type": "a text in quotes is needed",
    "bool_type": "true or false is needed, without quotes",
    "int_type": "a whole number is needed",
    "list_type": "a list in square brackets is needed",
    "dict_type": "an object in braces is needed",
    "model_type": "an object in braces is needed",
    "string_too_short": "must not be empty",
    "string_too_long": "at most {max_length} characters are allowed",
    "greater_than_equal": "must be {ge} or more",
    "less_than_equal": "must be {le} or less",
}
_TWELVE = "twelve values are needed, January to December; {actual_length} were given"


def _words(detail: ErrorDetails) -> str:
    context = detail.get("ctx", {})
    words = _WORDS.get(detail["type"], detail["msg"])
    if detail["type"] in ("too_short", "too_long") and 12 in context.values():
        words = _TWELVE
    return _(words).format_map(context)
