"""Airtightness after the work, and the ventilation that it then takes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from server.core.air import whole_house_flow
from server.files import house_file as hf
from server.recipes.survey import Json, Survey, assumed
from server.units import read_quantity

TIGHTEST = 1.5  # air changes an hour at 50 Pa: an old house is seldom sealed further
FAN_BELOW = 7.0  # air changes an hour at 50 Pa
HEAT_RECOVERY = 0.7
# Rule of thumb: a house changes its air in use at a twentieth of the rate at 50 Pa.
IN_USE_TO_50_PA = 20.0
FAN_STEP_CFM = 5


def airing(survey: Survey, brought_in: Sequence[str], tightness: float) -> Json:
    """The strategy's keys for leakage and ventilation.

    Air changes refer to the volume inside after the work, a flow to none; so what was found is
    turned into a flow, sealed, and referred to the new volume.
    """
    before = _volume(survey, ())
    after = _volume(survey, brought_in)
    air = survey.file.air
    keys: Json = {}
    if air.ach50 is not None:
        found = air.ach50.value * before / after
        sealed = _sealed(found, tightness)
        if sealed is not None:
            keys["ach50"] = _guess(sealed)
        at_50_pa = sealed or found
    elif air.cfm50 is not None:
        found = air.cfm50.value * 3600.0 / after
        cfm50 = _sealed_flow(air.cfm50.value, tightness, after)
        if cfm50 is not None:
            keys["cfm50"] = _guess(f"{cfm50:.10g} cfm")
        at_50_pa = found if cfm50 is None else cfm50 * _cfm() * 3600.0 / after
    else:
        assert air.air_changes is not None  # the file's own check
        found = air.air_changes.value * before / after
        rate = round(found * tightness, 2)
        if 0.0 < rate < found:
            keys["air_changes"] = _guess(f"{rate:.10g} 1/hour")
        at_50_pa = min(rate, found) * IN_USE_TO_50_PA
    fan = _fan(survey.file, brought_in, at_50_pa)
    return keys if fan is None else keys | {"ventilation": fan}


def _volume(survey: Survey, brought_in: Sequence[str]) -> float:
    spaces = survey.file.spaces
    inside = survey.inside.union(brought_in)
    return sum(spaces[name].volume.value for name in spaces if name in inside)


def _guess(figure: str | float) -> Json:
    return {"value": figure, "basis": "guess"}


def _cfm() -> float:
    return read_quantity("1 cfm", "flow")


def _sealed(found: float, tightness: float) -> float | None:
    """Air changes at 50 Pa after sealing, to a half, finer below 2; None for no gain."""
    wanted = max(found * tightness, TIGHTEST)
    rounded = round(wanted * 2.0) / 2.0 if wanted >= 2.0 else round(wanted, 1)
    return rounded if rounded < found else None


def _sealed_flow(found: float, tightness: float, volume: float) -> float | None:
    """Flow at 50 Pa after sealing, cfm to the next ten; found in m3/s; None for no gain."""
    wanted = max(found * tightness, TIGHTEST * volume / 3600.0) / _cfm()
    rounded = math.ceil(wanted / 10.0 - 1e-9) * 10.0
    return rounded if rounded < found / _cfm() else None


def _fan(file: hf.HouseFile, brought_in: Sequence[str], at_50_pa: float) -> Json | None:
    """A fan where the house is tight and has less; cellars that come inside count."""
    if at_50_pa >= FAN_BELOW:
        return None
    cellars = sum(
        part.area.value
        for part in file.components
        if part.kind == "basement floor" and part.from_ in brought_in
    )
    wanted = float(whole_house_flow(file.floor_area.value + cellars, file.bedrooms.value))
    cfm = math.ceil(wanted / _cfm() / FAN_STEP_CFM - 1e-9) * FAN_STEP_CFM
    has = file.air.ventilation.flow.value if file.air.ventilation is not None else 0.0
    if has >= wanted:
        return None
    return {
        "flow": assumed(f"{cfm} ft^3/minute"),
        "heat_recovery": assumed(HEAT_RECOVERY),
        "balanced": True,
    }
