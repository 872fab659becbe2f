"""What was seen of a house before anything is closed up, and what findings are held against."""

from __future__ import annotations

from gettext import gettext as _
from typing import Any

from server.core.findings.case import Case
from server.core.findings.code_limits import CodeLimits
from server.files.house_file import EnergyCodeEntry, SeenEntry
from server.files.site import site_of
from server.pages.house.context import OpenHouse
from server.units import System, format_quantity

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
LIMITS = tuple(name for name in EnergyCodeEntry.model_fields if name != "edition")


def seen_page(opened: OpenHouse) -> dict[str, Any]:
    """The questions of the survey with their answers, humidity indoors, the energy code."""
    of = opened.fields.of
    return {
        "groups": [(title, of("seen", names=names)) for title, names in GROUPS],
        "questions": len(SeenEntry.model_fields),
        "unanswered": unanswered(opened.house.seen),
        "humidity": of("indoor_humidity", names=("humidity_class", "relative_humidity")),
        "edition": of("energy_code", names=("edition",)),
        "limits": of("energy_code", names=LIMITS, examples=limits_in_force(opened)),
    }


def limits_in_force(opened: OpenHouse) -> dict[str, str]:
    """What the edition asks in the zone of the house, by name, as one would type it."""
    site = site_of(opened.house)
    zone = Case(opened.result, opened.result, None, site).zone
    if zone is None:
        return dict.fromkeys(LIMITS, _("zone not known"))
    limits = CodeLimits(site.code.edition).limits(zone.number, marine=zone.is_marine)
    return {name: limit_as_typed(name, getattr(limits, name), opened.units) for name in LIMITS}


def limit_as_typed(name: str, limit: float | None, units: System) -> str:
    """A limit as one would type it."""
    if limit is None:
        return _("none asked")
    if name == "shgc":
        return f"{limit:.2f}"
    if units == "ip":
        return "U-" + format_quantity(limit, "u_value", "ip", unit=False)
    return format_quantity(limit, "u_value", "si", 2)


def unanswered(seen: SeenEntry | None) -> int:
    """How many questions nobody has answered yet."""
    answers = seen or SeenEntry()
    return sum(getattr(answers, name) is None for name in SeenEntry.model_fields)
