"""Words of the work in the units of whoever reads them: items keep those that were typed."""

from __future__ import annotations

import re
from collections.abc import Callable

from server.formatting import thickness_text
from server.units import System, UnitError, format_quantity, read_quantity

_NUMBER = r"\d+(?: \d+/\d+|/\d+|\.\d+)?"
_THICKNESS = r"mm|cm|m|inches|inch|in|feet|foot|ft|\""
_FLOW = r"cfm|(?:cubic )?f(?:oo|ee)?t(?:\^3|³|3)?/min(?:ute)?|L/s|m(?:\^3|³|3)/(?:hour|hr|h|s)"
_TYPED = re.compile(rf"(?<![\w.,/-])({_NUMBER}) ?({_FLOW}|{_THICKNESS})(?![\w^/²³])")


def in_units(words: str, system: System) -> str:
    """The same words with every thickness and air flow in them in the reader's units."""
    return _TYPED.sub(lambda found: _rewritten(found[0], system), words)


def _rewritten(typed: str, system: System) -> str:
    kinds: tuple[tuple[str, Callable[[float], str]], ...] = (
        ("thickness", lambda value: thickness_text(value, system)),
        ("flow", lambda value: format_quantity(value, "flow", system, 0)),
    )
    for kind, write in kinds:
        try:
            return write(read_quantity(typed, kind))
        except UnitError:
            continue
    return typed
