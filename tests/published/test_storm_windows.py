"""A window with a storm over it, by itself, in a house file and in a strategy.

1/U = 1/U1 + 1/U2 - 0.17 + 0.18 m2 K/W, ISO 10077-1 (memory). Handbook, Btu/(h ft2 degF): single
in wood 0.89, single glass 1.04, single with a storm about 0.50 (ASHRAE Fundamentals, memory).
"""

import copy
import json

import pytest

from server.core.errors import ImpossibleValue
from server.core.strategy import apply
from server.core.transmittance import storm_window_transmittance, transmittances
from server.files.building import read_project
from server.files.faults import BadFile
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from server.recipes.words import strategy_in_words
from tests.conftest import SMALL_HOUSE

UNIT = 5.678263

# Inputs and result in Btu/(h ft2 degF): 1/(1/U1 + 1/U2 + 0.01 x 5.678263), arithmetic.
TABLE = [
    ("wood sash and glass", 0.89, 1.04, 0.4669),
    ("two alike", 1.04, 1.04, 0.5051),
    ("metal sash and glass", 1.27, 1.04, 0.5538),
    ("double and glass", 0.49, 1.04, 0.3269),
]


@pytest.mark.parametrize(("name", "sash", "storm", "expected"), TABLE)
def test_the_whole_of_two(name, sash, storm, expected):
    whole = storm_window_transmittance(sash * UNIT, storm * UNIT) / UNIT
    assert whole == pytest.approx(expected, abs=0.0001), name


def test_near_the_handbook():
    assert TABLE[0][3] == pytest.approx(0.50, rel=0.08)


def test_a_storm_that_passes_nothing_is_refused():
    with pytest.raises(ImpossibleValue) as refused:
        storm_window_transmittance(5.0, 0.0)
    assert refused.value.field == "storm_u_value"


DOCUMENT = json.loads(SMALL_HOUSE.read_text(encoding="utf-8"))
WINDOW = next(each for each in DOCUMENT["components"] if each["kind"] == "window")
STORM = "1.04 Btu/(hour*ft^2*delta_degF)"


def project(**keys):
    """The small house, its window with some keys."""
    document = copy.deepcopy(DOCUMENT)
    document["strategies"] = []
    window = next(each for each in document["components"] if each["name"] == WINDOW["name"])
    window |= keys
    return document


def u_of_window(house):
    names = [part.name for part in house.components]
    return transmittances(house)[names.index(WINDOW["name"])].u_value


def test_in_a_house_file():
    window = {"u_value": f"0.89 {STORM.split(maxsplit=1)[1]}"}
    plain = read_project(json.dumps(project(**window))).house
    stormed = read_project(json.dumps(project(**window, storm_u_value=STORM))).house
    assert u_of_window(plain) / UNIT == pytest.approx(0.89)
    assert u_of_window(stormed) / UNIT == pytest.approx(0.4669, abs=0.0001)


def test_a_strategy_hangs_a_storm_over_what_is_there():
    document = project(u_value=f"0.89 {STORM.split(maxsplit=1)[1]}")
    storm = {"storm_u_value": STORM, "shgc": 0.56}
    strategy = {"name": "Storms", "recipe": "own", "openings": {WINDOW["name"]: storm}}
    document["strategies"] = [strategy]
    made = read_project(json.dumps(document))
    after = apply(made.strategies[0], made.house)
    assert u_of_window(after) / UNIT == pytest.approx(0.4669, abs=0.0001)
    (words,) = strategy_in_words(made.file.strategies[0], made.file)
    assert words == f"{WINDOW['name'].capitalize()}: a storm window over it, U {STORM}, SHGC 0.56"
    steps = [item.step for item in take_off(made, made.file.strategies[0])]
    assert Step.NEW_STORM in steps
    assert not {Step.NEW_WINDOW, Step.SUN_CONTROL} & set(steps)


def test_no_storm_over_layers():
    document = project()
    wall = next(each for each in document["components"] if each["kind"] == "wall")
    wall["storm_u_value"] = STORM
    with pytest.raises(BadFile) as refused:
        read_project(json.dumps(document))
    (fault,) = refused.value.faults
    assert fault.place.endswith(".storm_u_value")
    assert "storm" in fault.words
