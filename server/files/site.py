"""From a house file to what findings ask beside the heat balance."""

from __future__ import annotations

from server.core.findings.case import Site
from server.core.findings.code_limits import CodeLimits
from server.core.findings.indoor_air import IndoorHumidity
from server.core.findings.observations import Observations, PartSeen
from server.files import house_file as hf


def site_of(file: hf.HouseFile) -> Site:
    """What was seen at the house, how humid it is, and which code is held beside it."""
    return Site(_observations(file), _humidity(file.indoor_humidity), _code(file.energy_code))


def _observations(file: hf.HouseFile) -> Observations:
    answers = file.seen or hf.SeenEntry()
    return Observations(
        year_built=file.year_built,
        parts={component.name: _part(component) for component in file.components},
        **{name: getattr(answers, name) for name in hf.SeenEntry.model_fields},
    )


def _part(component: hf.ComponentEntry) -> PartSeen:
    return PartSeen(
        access=component.access,
        reached_from=component.reached_from,
        wetness=component.wetness,
        condition=tuple(component.condition or ()),
    )


def _humidity(entry: hf.IndoorHumidityEntry | None) -> IndoorHumidity:
    if entry is None:
        return IndoorHumidity()
    if entry.relative_humidity is not None:
        return IndoorHumidity(relative_humidity=tuple(e.value for e in entry.relative_humidity))
    return IndoorHumidity(entry.humidity_class)


def _code(entry: hf.EnergyCodeEntry | None) -> CodeLimits:
    if entry is None:
        return CodeLimits()
    own = {
        name: limit.value
        for name in hf.EnergyCodeEntry.model_fields
        if name != "edition" and (limit := getattr(entry, name)) is not None
    }
    return CodeLimits(entry.edition, own)
