"""Design loads by hand: the residential load factors written out, and steady heat loss.

W, K, m2. The factors are those of the residential cooling procedure of ASHRAE Fundamentals, all
from memory: outdoor factors of opaque parts, fenestration factors by exposure, indoor gains.
"""

import json
import math
from dataclasses import replace

import numpy as np
import pytest

from server.core.design_load import (
    clear_sky_peak,
    cooling_load,
    fenestration_factor,
    heating_load,
)
from server.core.evaluate import evaluate
from server.files.building import read_project
from tests.conftest import SMALL_HOUSE

FACTORS = "ASHRAE Fundamentals, residential cooling load factors (memory)"


def house(change=lambda _document: None):
    document = json.loads(SMALL_HOUSE.read_text())
    document["strategies"] = []
    change(document)
    return read_project(json.dumps(document)).compare().as_found


def box(document):
    """One room: a wall, a window to the west, a roof; no junctions, no fans."""
    document["junctions"] = []
    document["spaces"] = {"indoors": {"inside": True, "volume": "240 m^3"}}
    document["assemblies"] = {}
    for plant in ("heating", "cooling"):
        if plant in document:
            document[plant].pop("ducts_in", None)
            document[plant]["distribution"] = 0.8
    document["air"] = {"air_changes": "0.5 1/hour"}
    document["floor_area"] = "100 m^2"
    document["bedrooms"] = 2
    document["set_points"] = {"heating": "21 degC", "cooling": "24 degC"}
    document["components"] = [
        {"name": "wall", "kind": "wall", "from": "indoors", "to": "outdoors", "area": "60 m^2"}
        | {"u_value": "0.4 W/(m^2*K)", "azimuth": "0 deg"},
        {"name": "window", "kind": "window", "from": "indoors", "to": "outdoors", "area": "8 m^2"}
        | {"u_value": "1.8 W/(m^2*K)", "azimuth": "270 deg", "shgc": 0.5},
        {"name": "roof", "kind": "roof", "from": "indoors", "to": "outdoors", "area": "90 m^2"}
        | {"u_value": "0.3 W/(m^2*K)", "azimuth": "180 deg", "solar_absorptance": 0.8},
    ]


@pytest.fixture(scope="module")
def room():
    return house(box)


def test_heating_is_conductance_times_difference(room):
    """Without ground and buffers: sum of U A times the difference, and the air's."""
    load = heating_load(room)
    difference = 21.0 - room.house.climate.heating_design_temperature
    conductance = 60 * 0.4 + 8 * 1.8 + 90 * 0.3
    pressure = 101325 * (1 - 2.25577e-5 * room.house.climate.elevation) ** 5.2559
    capacity = pressure / (287.055 * 293.15) * 1006
    air = 0.5 * 240 / 3600 * capacity * difference
    assert load.air == pytest.approx(air)
    assert load.total == pytest.approx(conductance * difference + air)
    assert sum(load.parts) + sum(load.junctions) + load.air == pytest.approx(load.total)
    assert load.on_equipment == pytest.approx(load.total / 0.8)


def test_heating_parts_sum_to_the_whole_through_buffers_and_ground():
    result = house()
    load = heating_load(result)
    design = result.house.climate.heating_design_temperature
    inside = result.house.heating_set_point
    coldest = float(np.min(result.ground_temperature))
    through = result.to_outdoors * (inside - design) + result.to_ground * (inside - coldest)
    assert sum(load.parts) + sum(load.junctions) == pytest.approx(through)


def test_opaque_parts_by_their_factors(room):
    """q = A U (OF_t dT + OF_b + OF_r DR)."""
    load = cooling_load(room)
    climate = room.house.climate
    difference = climate.cooling_design_temperature - 24.0
    daily = climate.cooling_daily_range
    wall, _window, roof = load.parts
    assert wall == pytest.approx(60 * 0.4 * (difference + 8.2 - 0.36 * daily)), FACTORS
    assert roof == pytest.approx(90 * 0.3 * (difference + (38.3 * 0.8 - 7.0) - 0.36 * daily)), (
        FACTORS
    )


def test_window_by_its_factors(room):
    """q = A (U (dT - 0.46 DR) + I SHGC FF), FF of a west window 0.56."""
    climate = room.house.climate
    difference = climate.cooling_design_temperature - 24.0
    peak = clear_sky_peak(float(climate.latitude), 90.0, 270.0)
    expected = 8 * (1.8 * (difference - 0.46 * climate.cooling_daily_range) + peak * 0.5 * 0.56)
    assert cooling_load(room).parts[1] == pytest.approx(expected), FACTORS


def test_indoor_gains_and_moisture(room):
    load = cooling_load(room)
    assert load.people == pytest.approx(136 + 2.2 * 100 + 22 * 3), FACTORS
    humid = float(np.max(room.house.climate.humidity_ratio))
    density = 101325 * (1 - 2.25577e-5 * room.house.climate.elevation) ** 5.2559
    density /= 287.055 * 293.15
    outdoor = density * 2.5e6 * 0.5 * 240 / 3600 * max(humid - 0.0093, 0.0)
    assert load.latent == pytest.approx(outdoor + 20 + 0.22 * 100 + 12 * 3), FACTORS
    assert load.sensible == pytest.approx(sum(load.parts) + load.air + load.people)


@pytest.mark.parametrize(
    ("azimuth", "factor"),
    [
        (0, 0.44),
        (45, 0.21),
        (90, 0.31),
        (135, 0.37),
        (180, 0.47),
        (225, 0.58),
        (270, 0.56),
        (315, 0.46),
    ],
)
def test_fenestration_factors(azimuth, factor):
    assert fenestration_factor(90.0, float(azimuth)) == pytest.approx(factor), FACTORS
    assert fenestration_factor(0.0, float(azimuth)) == pytest.approx(0.58), FACTORS


def test_clear_sky_peak_by_hand():
    """Level, latitude 40, 21 July at noon: beam A exp(-B/sin b) sin b and sky C of it.

    Declination by Cooper's formula for day 202 is 20.44 degrees: sun 70.4 degrees high.
    """
    declination = 23.45 * math.sin(math.radians(360 * (284 + 202) / 365))
    height = math.sin(math.radians(90 - 40 + declination))
    beam = 1085 * math.exp(-0.207 / height)
    by_hand = beam * height + 0.136 * beam
    assert clear_sky_peak(40.0, 0.0, None) == pytest.approx(by_hand, rel=0.002)


def test_a_darker_roof_over_an_attic_loads_more():
    dark = house(
        lambda d: [
            c.update(solar_absorptance=0.9)
            for c in d["components"]
            if c["to"] == "outdoors" and c["kind"] == "roof"
        ]
    )
    pale = house(
        lambda d: [
            c.update(solar_absorptance=0.3)
            for c in d["components"]
            if c["to"] == "outdoors" and c["kind"] == "roof"
        ]
    )
    assert cooling_load(dark).sensible > cooling_load(pale).sensible


def test_what_is_not_known_is_none():
    found = house(box)
    bare = replace(
        found.house.climate, heating_design_temperature=None, cooling_design_temperature=None
    )
    unknown = evaluate(replace(found.house, climate=bare))
    assert heating_load(unknown) is None
    assert cooling_load(unknown) is None
