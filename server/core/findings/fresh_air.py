"""Fresh air after the house is made tighter."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.air import NO_FANS, air_flows, whole_house_flow
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case

ROUNDING = 0.995  # a fan is bought to the next 5 cfm


def _judge(case: Case) -> Iterator[Found]:
    house = case.house
    needed = float(whole_house_flow(house.floor_area, house.bedrooms))
    fan = float(house.ventilation.flow)
    leaks = air_flows(
        house.leakage,
        NO_FANS,
        house.storeys,
        house.heating_set_point,
        house.climate.mean_temperature,
        house.climate.wind_speed,
    ).outdoor
    least = float(leaks.min())
    facts: dict[str, Fact] = {
        "fan": Quantity(fan, "flow"),
        "leaks": Quantity(round(least, 5), "flow"),
        "needed": Quantity(round(needed, 5), "flow"),
    }
    limit = Quantity(round(needed, 5), "flow")
    if fan >= needed * ROUNDING:
        yield Found("by fan", (), facts, Measured(Quantity(fan, "flow"), limit, True))
        return
    has = Measured(Quantity(round(fan + least, 5), "flow"), limit, True)
    yield Found("by leaks" if fan + least >= needed * ROUNDING else "too little", (), facts, has)


RULE = Rule(
    "fresh air",
    {"by fan": Severity.GOOD, "by leaks": Severity.WATCH, "too little": Severity.MEND},
    _judge,
)
