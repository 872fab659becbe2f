"""What is wrong with a file: faults, each with its place, what was read and what is allowed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault. `place` is empty where the file as a whole is meant."""

    place: str
    read: str | None
    words: str

    def __str__(self) -> str:
        parts = [part for part in (self.place, f"read {self.read}" if self.read else None) if part]
        return f"{', '.join(parts)}: {self.words}" if parts else self.words


class BadFile(Exception):
    """A file that was refused, with every fault found in it."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = faults
        super().__init__("\n".join(map(str, faults)))
