"""Whether defaults can be used: a house is tried with them, so what a house refuses they do too."""

from __future__ import annotations

from gettext import gettext as _
from typing import Any

from pydantic import ValidationError

from server.files.building import build_survey
from server.files.faults import BadFile, Fault
from server.files.house_file import FORMAT, Entry, HouseFile
from server.files.places import found_at
from server.files.reading import faults_of
from server.regions.defaults import LIMITS, RegionDefaults

MOST_FUELS = 30
DRIEST = 0.01  # relative humidity
_OPTIONAL = ("indoor_humidity", "energy_code")
_PROBE: dict[str, Any] = {
    "format": FORMAT,
    "name": "a house to try defaults on",
    "floor_area": "10 m^2",
    "bedrooms": 1,
    "storeys": 1,
    "spaces": {"indoors": {"inside": True, "volume": "25 m^3"}},
    "air": {"ach50": 5},
    "heating": {"fuel": "electricity", "efficiency": 1},
    "components": [
        {
            "name": "wall",
            "kind": "wall",
            "from": "indoors",
            "to": "outdoors",
            "area": "10 m^2",
            "u_value": "1 W/(m^2*K)",
        }
    ],
}


def checked_defaults(document: Any) -> RegionDefaults:
    """The defaults of a document. Raises: BadFile with every fault, by its place there."""
    try:
        defaults = RegionDefaults.model_validate(document)
    except ValidationError as error:
        raise BadFile(faults_of(error)) from None
    faults = [
        *_fractions(defaults),
        *_humidity(defaults),
        *_limits(defaults),
        *_fuels(defaults),
        *_in_a_house(defaults),
    ]
    if faults:
        raise BadFile([_with_what_was_read(fault, document) for fault in faults])
    return defaults


def probe_house(defaults: RegionDefaults) -> HouseFile:
    """The smallest house with these defaults."""
    written = defaults.as_written()
    needed = ("climate", "set_points", "prices", "carbon")
    used = {name: written[name] for name in (*needed, *_OPTIONAL) if name in written}
    return HouseFile.model_validate(_PROBE | used | {"films": defaults.films})


def _in_a_house(defaults: RegionDefaults) -> list[Fault]:
    try:
        build_survey(probe_house(defaults))
    except BadFile as refusal:
        return refusal.faults
    return []


def _fractions(defaults: RegionDefaults) -> list[Fault]:
    fractions = defaults.framing_fractions
    faults = []
    for name in type(fractions).model_fields:
        entry: Entry = getattr(fractions, name)
        if not 0.0 <= entry.value < 1.0:
            words = _("must be 0 or more and below 1")
            faults.append(Fault(f"framing_fractions.{name}", None, words))
    return faults


def _humidity(defaults: RegionDefaults) -> list[Fault]:
    given = defaults.indoor_humidity
    months = (given.relative_humidity if given else None) or ()
    words = _("must be 1 to 100 %, or 0.01 to 1")
    return [
        Fault(f"indoor_humidity.relative_humidity[{month}]", None, words)
        for month, entry in enumerate(months)
        if not DRIEST <= entry.value <= 1.0
    ]


def _limits(defaults: RegionDefaults) -> list[Fault]:
    faults = []
    for name in LIMITS if defaults.energy_code else ():
        entry: Entry | None = getattr(defaults.energy_code, name)
        if entry is None:
            continue
        place = f"energy_code.{name}"
        if entry.value <= 0.0:
            faults.append(Fault(place, None, _("must be above 0")))
        elif name == "shgc" and entry.value > 1.0:
            faults.append(Fault(place, None, _("must be 1 or less")))
    return faults


def _fuels(defaults: RegionDefaults) -> list[Fault]:
    if max(len(defaults.prices), len(defaults.carbon)) <= MOST_FUELS:
        return []
    return [Fault("prices", None, _("at most {most} fuels").format(most=MOST_FUELS))]


def _with_what_was_read(fault: Fault, document: Any) -> Fault:
    return Fault(fault.place, fault.read or found_at(document, fault.place), fault.words)
