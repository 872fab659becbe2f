"""The group of a material: what sort of thing it is, by the seed table or by its name."""

from __future__ import annotations

import functools

from server.files import seeds

MASONRY = frozenset({"masonry-old", "masonry-new", "concrete"})
MEMBRANES = frozenset({"membrane", "air-tight"})
INSULATION = frozenset(
    {
        "batt",
        "dense-pack",
        "loose-fill",
        "rigid-foam",
        "sprayed-foam",
        "rigid-mineral-wool",
        "rigid-natural",
        "rigid-mineral",
    }
)
# Groups of materials that the file brings itself, by a word of the name; the first that fits.
_GROUP_BY_WORD = (
    ("roofing", "roofing"),
    ("roof tile", "roofing"),
    ("slate", "roofing"),
    ("siding", "cladding"),
    ("clapboard", "cladding"),
    ("shingle", "cladding"),
    ("sheathing", "sheathing"),
    ("batt", "batt"),
    ("wool", "batt"),
    ("cellulose", "loose-fill"),
    ("loose fill", "loose-fill"),
    ("foam", "rigid-foam"),
    ("polystyrene", "rigid-foam"),
    ("insulation", "batt"),
    ("felt", "membrane"),
    ("membrane", "membrane"),
    ("brick", "masonry-old"),
    ("stone", "masonry-old"),
    ("block", "masonry-new"),
    ("masonry", "masonry-old"),
    ("concrete", "concrete"),
)


@functools.cache
def _seed_groups() -> dict[str, str]:
    return {row.name: row.figures["group"] for row in seeds.material_rows()}


def group_of(name: str) -> str | None:
    """The group of a material: the seed table's, or for one of the file's own by its name."""
    known = _seed_groups().get(name)
    if known is not None:
        return known
    lower = name.lower()
    return next((group for word, group in _GROUP_BY_WORD if word in lower), None)
