"""Words of the work in the units of whoever reads them: items keep those that were typed."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from server.formatting import thickness_text
from server.units import System, UnitError, format_quantity, read_quantity

_NUMBER = r"\d+(?: \d+/\d+|/\d+|\.\d+)?"
_THICKNESS = r"mm|cm|m|inches|inch|in|feet|foot|ft|\""
_FLOW = r"cfm|(?:cubic )?f(?:oo|ee)?t(?:\^3|³|3)?/min(?:ute)?|L/s|m(?:\^3|³|3)/(?:hour|hr|h|s)"
_TYPED = rf"(?<![\w.,/\u202f-])(?:{_NUMBER})[ \u00a0]?(?P<unit>{_FLOW}|{_THICKNESS})(?![\w^/²³])"
_FEET = frozenset({"feet", "foot", "ft"})  # the trade writes them as they are


def in_units(words: str, system: System, names: Iterable[str] = ()) -> str:
    """The same words with every thickness and air flow in them in the reader's units.

    names: what people have called things, and is left as they did.
    """
    kept = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    pattern = rf"(?i:{kept})|{_TYPED}" if kept else _TYPED
    return re.sub(pattern, lambda found: _rewritten(found, system), words)


def _rewritten(found: re.Match[str], system: System) -> str:
    typed = found[0]
    if found["unit"] is None or (system == "ip" and found["unit"] in _FEET):
        return typed
    kinds: tuple[tuple[str, Callable[[float], str]], ...] = (
        ("thickness", lambda value: thickness_text(value, system)),
        ("flow", lambda value: format_quantity(value, "flow", system, 0)),
    )
    for kind, write in kinds:
        try:
            return write(read_quantity(typed.replace("\u00a0", " "), kind))
        except UnitError:
            continue
    return typed
