"""What was seen of a house before anything is closed up, and what findings are held against."""

from __future__ import annotations

from collections.abc import Collection
from gettext import gettext as _
from typing import Any

from server.files.house_file import EnergyCodeEntry, SeenEntry
from server.pages.house.context import OpenHouse
from server.pages.house.limits import LIMITS, limits_as_typed, zone_named
from server.pages.house.seen_applying import not_applying

GROUPS = (  # in the order in which one walks round and through a house
    (_("Water"), ("gutters", "ground_slope", "flashing", "below_grade", "crawl_ground_cover")),
    (_("Insects and soil gas"), ("termites", "radon")),
    (_("Burning and chimneys"), ("combustion", "chimney", "flues_through_attic")),
    (
        _("Hidden in the old house"),
        ("wiring", "loose_fill", "asbestos", "lead_paint", "framing", "plaster", "inside_paint"),
    ),
    (_("Masonry"), ("veneer_weeps", "beams_in_masonry")),
)


def seen_page(opened: OpenHouse) -> dict[str, Any]:
    """The questions of the survey with their answers, humidity indoors, the energy code."""
    of = opened.fields.of
    out = not_applying(opened)
    groups = [(title, [name for name in names if name not in out]) for title, names in GROUPS]
    last = [name for _title, names in GROUPS for name in names if name in out]
    return {
        "groups": [(title, of("seen", names=names)) for title, names in groups if names],
        "not_applying": of("seen", names=last),
        "questions": len(SeenEntry.model_fields) - len(out),
        "unanswered": unanswered(opened.house.seen, out),
        "humidity": of("indoor_humidity", names=("humidity_class", "relative_humidity")),
        "edition": of("energy_code", names=("edition",)),
        "limits": of("energy_code", names=LIMITS, examples=limits_in_force(opened)),
    }


def limits_in_force(opened: OpenHouse) -> dict[str, str]:
    """What the edition asks in the zone of the house, by name, as one would type it."""
    code = opened.house.energy_code or EnergyCodeEntry()
    zone = zone_named(opened.survey.house.climate.iecc_zone)
    return limits_as_typed(code.edition, zone, opened.units)


def unanswered(seen: SeenEntry | None, not_asked: Collection[str] = ()) -> int:
    """How many questions nobody has answered yet, but for those that do not apply."""
    answers = seen or SeenEntry()
    asked = (name for name in SeenEntry.model_fields if name not in not_asked)
    return sum(getattr(answers, name) is None for name in asked)
