"""What takes long to draw is kept by a hash of all that went into it."""

from __future__ import annotations

import hashlib
import threading
from collections.abc import Callable
from dataclasses import dataclass

from cachetools import LRUCache
from markupsafe import Markup

MOST_CHARACTERS = 64_000_000  # about a hundred comparisons of large houses


@dataclass(frozen=True, slots=True)
class Drawing:
    """The middle of a page, and its title."""

    title: str
    markup: Markup


class DrawnOnce:
    """Drawings by what went into them; those unused longest go first. Threads share it.

    Two that ask for the same at once may both draw it; what they draw is the same.
    """

    def __init__(self, most_characters: int = MOST_CHARACTERS) -> None:
        self._kept: LRUCache[str, Drawing] = LRUCache(
            most_characters, getsizeof=lambda drawing: len(drawing.markup)
        )
        self._lock = threading.Lock()

    def get(self, inputs: tuple[object, ...], draw: Callable[[], Drawing]) -> Drawing:
        """The drawing of some inputs, made now where none is kept.

        inputs: texts and numbers that name all that the drawing depends on, contents by their hash.
        """
        key = hashlib.sha256(repr(inputs).encode()).hexdigest()
        with self._lock:
            kept = self._kept.get(key)
        if kept is not None:
            return kept
        drawing = draw()
        if len(drawing.markup) <= self._kept.maxsize:
            with self._lock:
                self._kept[key] = drawing
        return drawing

    @property
    def characters(self) -> int:
        """How much is kept."""
        return int(self._kept.currsize)
