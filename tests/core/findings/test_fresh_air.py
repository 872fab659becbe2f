"""Fresh air. ASHRAE 62.2-2016: 0.03 cfm for each ft2 of floor, 7.5 for each bedroom and one more.

1600 ft2 and 3 bedrooms: 48 + 30 = 78 cfm (worked by hand; the formula from memory).
"""

import json

import pytest

from server.core.findings.base import Severity
from server.core.findings.fresh_air import RULE
from tests.conftest import SMALL_HOUSE
from tests.core.findings.cases import the_one
from tests.recipes.houses import BASEMENT_FLOOR, BASEMENT_WALL, FLOOR, WALL, solid

CFM = 0.3048**3 / 60.0  # m3/s
HOUSE = {"floor_area": "1600 ft^2", "bedrooms": 3}


def air(fan, air_changes):
    """A fan of so many cfm and leaks of a steady rate in 10000 ft3."""
    return {
        "air": {
            "air_changes": f"{air_changes} 1/hour",
            "ventilation": {"flow": f"{fan} cfm", "balanced": True},
        }
    }


# 0.3 an hour of 10000 ft3 is 50 cfm; 0.6 is 100 cfm.
@pytest.mark.parametrize(
    ("fan", "air_changes", "outcome", "severity"),
    [
        (80, 0.1, "by fan", Severity.GOOD),
        (70, 0.6, "fan too small", Severity.WATCH),
        (0, 0.6, "by leaks", Severity.WATCH),
        (30, 0.3, "fan too small", Severity.WATCH),  # 80 of 78 cfm
        (20, 0.3, "too little", Severity.MEND),  # 70 of 78 cfm
        (0, 0.3, "too little", Severity.MEND),
    ],
)
def test_fan_and_leaks_against_what_is_needed(fan, air_changes, outcome, severity):
    found = the_one(RULE, [WALL], **HOUSE, **air(fan, air_changes))
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.facts["needed"].value == pytest.approx(78.0 * CFM, abs=1e-5)
    assert found.facts["fan"].value == pytest.approx(fan * CFM)
    leaks = air_changes * 10000.0 / 60.0
    assert found.facts["leaks"].value == pytest.approx(leaks * CFM, abs=1e-5)


def test_what_is_held_beside_the_limit():
    found = the_one(RULE, [WALL], **HOUSE, **air(20, 0.3))
    assert found.measured.at_least
    assert found.measured.figure.value == pytest.approx(70.0 * CFM, abs=1e-5)
    assert found.measured.limit.value == pytest.approx(78.0 * CFM, abs=1e-5)
    by_fan = the_one(RULE, [WALL], **HOUSE, **air(90, 0.3))
    assert by_fan.measured.figure.value == pytest.approx(90.0 * CFM)


@pytest.mark.parametrize(
    ("air_changes", "together", "outcome"),
    [
        (0.3, 64.0, "too little"),  # sqrt(40^2 + 50^2) = 64 of 78 cfm
        (0.42, 80.6, "fan too small"),  # sqrt(40^2 + 70^2) = 80.6
    ],
)
def test_a_fan_that_blows_one_way_takes_the_place_of_leaks(air_changes, together, outcome):
    """In quadrature, ASHRAE Handbook: Fundamentals, combining flows (memory)."""
    blows_out = air(40, air_changes)
    blows_out["air"]["ventilation"]["balanced"] = False
    found = the_one(RULE, [WALL], **HOUSE, **blows_out)
    assert found.outcome == outcome
    assert found.measured.figure.value == pytest.approx(together * CFM, rel=1e-3)


def test_more_bedrooms_need_more():
    """5 bedrooms: 48 + 45 = 93 cfm, more than a fan of 80 brings."""
    found = the_one(RULE, [WALL], floor_area="1600 ft^2", bedrooms=5, **air(80, 0.0))
    assert found.outcome == "too little"
    assert found.measured.limit.value == pytest.approx(93.0 * CFM, abs=1e-5)


def test_the_mildest_month_counts():
    """Without wind and with outdoors as warm as the rooms nothing drives air through leaks."""
    climate = json.loads(SMALL_HOUSE.read_text())["climate"]
    climate["wind_speed"][6] = "0 m/s"
    climate["mean_temperature"][6] = "70 degF"
    still = {"air": {"ach50": 12}, "climate": climate}
    found = the_one(RULE, [WALL], **HOUSE, **still)
    assert found.facts["leaks"].value == pytest.approx(0.0, abs=1e-5)
    assert found.outcome == "too little"


def test_a_strategy_that_seals_the_house_and_adds_a_fan():
    loose = air(0, 0.6)
    sealed = the_one(RULE, [WALL], does={"air_changes": "0.1 1/hour"}, **HOUSE, **loose)
    assert sealed.outcome == "too little"
    fan = {"flow": "80 cfm", "heat_recovery": 0.7}
    does = {"air_changes": "0.1 1/hour", "ventilation": fan}
    assert the_one(RULE, [WALL], does=does, **HOUSE, **loose).outcome == "by fan"


@pytest.mark.parametrize(
    ("ground", "needed"),
    # a cellar's 1000 ft2 of concrete ask for 30 cfm more, the earth of a crawlspace for none
    [("concrete", 108.0), ("clay or silt soil", 78.0)],
)
def test_earth_that_comes_inside_is_no_floor_of_a_dwelling(ground, needed):
    floor = BASEMENT_FLOOR | {"layers": [solid(ground, "4 in")], "area": "1000 ft^2"}
    parts = [WALL, FLOOR, BASEMENT_WALL, floor]
    found = the_one(RULE, parts, does={"inside": ["basement"]}, **HOUSE, **air(20, 0.1))
    assert found.measured.limit.value / CFM == pytest.approx(needed, rel=1e-4)
