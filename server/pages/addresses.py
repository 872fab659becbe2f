"""What addresses look like: keys in paths, and paths to go back to."""

from __future__ import annotations

from urllib.parse import quote

from starlette.convertors import StringConvertor, register_url_convertor

LONGEST_PATH = 2000


class KeyConvertor(StringConvertor):
    """`{key:key}` in a route: an opaque key. Anything else is no such page."""

    regex = "[0-9a-f]{32}"


register_url_convertor("key", KeyConvertor())


def local_path(text: object, otherwise: str) -> str:
    """A path on this site to go on to; whatever could lead to another site is left out."""
    if (
        isinstance(text, str)
        and len(text) <= LONGEST_PATH
        and text.startswith("/")
        and not text.startswith("//")
        and "\\" not in text
        and text.isprintable()
    ):
        return text
    return otherwise


def with_next(path: str, then: str) -> str:
    """The path with where to go afterwards."""
    return f"{path}?next={quote(then, safe='/')}"
