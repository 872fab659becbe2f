"""What the energy code asks in a zone, as one would type it."""

from __future__ import annotations

import re
from gettext import gettext as _

from server.core.findings.case import Zone
from server.core.findings.code_limits import CodeLimits
from server.files.house_file import EnergyCodeEntry
from server.units import System, format_quantity

LIMITS = tuple(name for name in EnergyCodeEntry.model_fields if name != "edition")


def zone_named(text: str | None) -> Zone | None:
    """The zone of a text like 4A; None where it is none."""
    read = re.match(r"\s*([0-8])\s*([ABC]?)", text or "")
    return None if read is None else Zone(max(1, int(read[1])), read[2])


def limits_as_typed(edition: str, zone: Zone | None, units: System) -> dict[str, str]:
    """The limits of an edition by name; in words where the zone is not known."""
    if zone is None:
        return dict.fromkeys(LIMITS, _("zone not known"))
    limits = CodeLimits(edition).limits(zone.number, marine=zone.is_marine)
    return {name: _as_typed(name, getattr(limits, name), units) for name in LIMITS}


def _as_typed(name: str, limit: float | None, units: System) -> str:
    if limit is None:
        return _("none asked")
    if name == "shgc":
        return f"{limit:.2f}"
    if units == "ip":
        return "U-" + format_quantity(limit, "u_value", "ip", unit=False)
    return format_quantity(limit, "u_value", "si", 2)
