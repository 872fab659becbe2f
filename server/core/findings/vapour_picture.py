"""What a picture of an assembly in its worst month shows."""

from __future__ import annotations

from dataclasses import dataclass

from server.core.moisture import Course


@dataclass(frozen=True, slots=True)
class VapourPicture:
    """month: 0 to 11. edges: the course's node at the outer face of every layer, by its number.

    first_number: of the first of the layers, 0 for paint, which is no layer of the assembly.
    water: kg/m2 at the end of each month from `first_month` on; empty where nothing condenses.
    """

    month: int
    course: Course
    layers: tuple[str, ...]
    edges: tuple[int, ...]
    first_number: int
    first_month: int
    water: tuple[float, ...]
