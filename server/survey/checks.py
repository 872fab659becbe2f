"""The short form checked: every answer is one that a house can have, and none is missing."""

from __future__ import annotations

from dataclasses import dataclass, replace
from gettext import gettext as _
from typing import Any

from server.files.house_file import Entry, Typed
from server.survey import usual
from server.survey.constructions import Construction, constructions
from server.survey.errors import OutlineError
from server.survey.figures import Figure, system_of, typed
from server.survey.form import ATTICS, FACES, FOUNDATIONS, FUELS, STOREYS, Outline
from server.units import System, format_quantity, to_display

KIND_OF = {
    "wall": "wall",
    "ceiling": "ceiling",
    "sloped_ceiling": "roof",
    "attic_roof": "roof",
    "attic_gable": "wall",
    "floor": "floor",
    "slab": "slab",
    "rim_joist": "wall",
    "foundation_wall": "basement wall",
    "foundation_floor": "basement floor",
    "window": "window",
    "door": "door",
}
# Field: its kind as the file reads it, least, most. Judgement: what a dwelling can have.
_LIMITS: dict[str, tuple[str | None, float, float]] = {
    "length": ("thickness", 3.0, 60.0),
    "width": ("thickness", 3.0, 60.0),
    "ceiling_height": ("thickness", 1.8, 6.0),
    "floor_thickness": ("thickness", 0.05, 1.0),
    "wall_thickness": ("thickness", 0.02, 1.2),
    "roof_pitch": ("angle", 5.0, 75.0),
    "foundation_height": ("thickness", 0.3, 6.0),
    "foundation_depth": ("thickness", 0.05, 6.0),
    "window_area": ("area", 0.0, 5000.0),
    "heating_efficiency": (None, 0.3, 8.0),
    "ach50": (None, 0.1, 60.0),
}
_PRINTED_AS = {"thickness": "length"}
_MOST_BEDROOMS = 20
_LONGEST_NAME = 200
_YEARS = (1600, 2100)


@dataclass(frozen=True, slots=True)
class Checked:
    """An outline with every open answer settled: its quantities and constructions by field."""

    outline: Outline
    entries: dict[str, Entry]
    built: dict[str, Construction]
    system: System

    def figure(self, field: str) -> Figure:
        """A quantity to calculate with."""
        return Figure.of(self.entries[field])


def checked(outline: Outline) -> Checked:
    """Raises OutlineError at the first answer that is refused."""
    _check_choices(outline)
    built = {field: _construction(outline, field) for field in KIND_OF}
    system = system_of(outline.length)
    plan: dict[str, Any] = {
        side: _quantity(side, getattr(outline, side), system) for side in ("length", "width")
    }
    outline = replace(outline, **plan)  # usual areas are worked out from these
    entries = {
        field: _quantity(field, entry, system)
        for field, entry in _settled(outline, built["wall"], system).items()
    }
    if outline.foundation != "slab":
        _check_foundation(entries)
    return Checked(outline, entries, built, system)


def _check_choices(outline: Outline) -> None:
    choices: tuple[tuple[str, Any, tuple[Any, ...]], ...] = (
        ("faces", outline.faces, FACES),
        ("storeys", outline.storeys, STOREYS),
        ("foundation", outline.foundation, FOUNDATIONS),
        ("attic", outline.attic, ATTICS),
        ("fuel", outline.fuel, FUELS),
    )
    for field, given, allowed in choices:
        if given not in allowed:
            listed = ", ".join(f"{each:g}" if isinstance(each, float) else each for each in allowed)
            raise OutlineError(field, _("allowed are {allowed}").format(allowed=listed))
    if not 0 < len(outline.name.strip()) <= len(outline.name) <= _LONGEST_NAME:
        words = _("a name of one to {most} characters is needed").format(most=_LONGEST_NAME)
        raise OutlineError("name", words)
    if outline.year_built is not None:
        _check_between("year_built", outline.year_built, *_YEARS)
    _check_between("bedrooms", outline.bedrooms, 0, _MOST_BEDROOMS)


def _check_between(field: str, value: float, least: float, most: float) -> None:
    if not least <= value <= most:
        words = _("must be between {least} and {most}").format(least=least, most=most)
        raise OutlineError(field, words)


def _construction(outline: Outline, field: str) -> Construction:
    name = getattr(outline, field) or usual.usual_construction(outline, field)
    found = constructions().get(name)
    if found is None:
        words = _("no construction is called “{name}”").format(name=name)
        raise OutlineError(field, words)
    if KIND_OF[field] not in found.kinds:
        words = _("“{name}” does not serve as {kind}").format(name=name, kind=KIND_OF[field])
        raise OutlineError(field, words)
    return found


def _settled(outline: Outline, wall: Construction, system: System) -> dict[str, Entry]:
    """Every quantity of the form, the usual one where none was typed."""
    entries = {
        "length": outline.length,
        "width": outline.width,
        "ceiling_height": outline.ceiling_height,
        "floor_thickness": outline.floor_thickness,
        "wall_thickness": outline.wall_thickness or _thickness_of(wall, system),
        "roof_pitch": outline.roof_pitch or usual.usual_pitch(outline),
        "window_area": outline.window_area or usual.usual_window_area(outline),
        "heating_efficiency": outline.heating_efficiency or usual.usual_efficiency(outline),
        "ach50": outline.ach50 or usual.usual_leakage(outline),
    }
    if outline.foundation != "slab":
        height = outline.foundation_height or usual.usual_foundation_height(outline)
        depth = outline.foundation_depth or usual.usual_foundation_depth(outline)
        entries |= {"foundation_height": height, "foundation_depth": depth}
    return entries


def _thickness_of(wall: Construction, system: System) -> Entry:
    unit = "in" if system == "ip" else "mm"
    number = to_display(wall.thickness, "thickness", system)
    return typed("thickness", f"{number:.{2 if system == 'ip' else 0}f} {unit}", "default")


def _quantity(field: str, entry: Entry, system: System) -> Entry:
    """The entry, read anew so that its text and value are sure to agree."""
    kind, least, most = _LIMITS[field]
    try:
        entry = Typed(kind).read(entry.as_written())
    except ValueError as error:
        raise OutlineError(field, str(error)) from None
    if not least <= entry.value <= most:
        low, high = (_shown(each, kind, system) for each in (least, most))
        words = _("must be between {least} and {most}").format(least=low, most=high)
        raise OutlineError(field, words)
    return entry


def _shown(value: float, kind: str | None, system: System) -> str:
    if kind is None:
        return f"{value:g}"
    return format_quantity(value, _PRINTED_AS.get(kind, kind), system)


def _check_foundation(entries: dict[str, Entry]) -> None:
    if entries["foundation_depth"].value > entries["foundation_height"].value * (1.0 + 1e-9):
        words = _("more lies below grade than the foundation is high")
        raise OutlineError("foundation_depth", words)
