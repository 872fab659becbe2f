"""What a survey refuses."""

from __future__ import annotations


class OutlineError(Exception):
    """One answer of the short form that no house follows from: the field, and why in words."""

    def __init__(self, field: str, words: str) -> None:
        super().__init__(f"{field}: {words}")
        self.field = field
        self.words = words
