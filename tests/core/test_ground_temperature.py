"""The one ground temperature that stands for all parts in the ground."""

import json
from dataclasses import replace

import numpy as np
import pytest

from server.core.evaluate import evaluate
from server.core.ground_wave import first_harmonic
from server.core.house import GROUND_KINDS, FixedTransmittance
from server.files.building import read_project
from tests.conftest import SMALL_HOUSE


def small(change=lambda _document: None):
    document = json.loads(SMALL_HOUSE.read_text())
    document["strategies"] = []
    change(document)
    return read_project(json.dumps(document)).house


def cold_basement(document):
    """A second part in the ground, under a buffer, with another share of the wave."""
    document["spaces"]["cellar"] = {
        "inside": False,
        "volume": "90 m^3",
        "air_changes": "0.5 1/hour",
    }
    document["assemblies"]["bare"] = {"layers": [{"material": "concrete", "thickness": "100 mm"}]}
    common = {"to": "ground", "assembly": "bare", "depth_below_grade": "2 m", "soil": "clay"}
    document["components"] += [
        {"name": "cellar floor", "kind": "basement floor", "from": "cellar", "area": "40 m^2"}
        | {"exposed_perimeter": "26 m"}
        | common,
        {"name": "cellar wall", "kind": "basement wall", "from": "cellar", "area": "52 m^2"}
        | common,
        {"name": "over the cellar", "kind": "floor", "from": "indoors", "to": "cellar"}
        | {"area": "40 m^2", "u_value": "1.2 W/(m^2*K)"},
    ]


def test_all_parts_lose_together_what_each_loses_by_itself():
    result = evaluate(small(cold_basement))
    house, graph = result.house, result.working.graph
    mean = result.working.ground.mean
    late = first_harmonic(house.climate.mean_temperature).late_by(1.0)
    inside = house.heating_set_point
    each = np.zeros(12)
    for index, part in enumerate(house.components):
        if part.kind not in GROUND_KINDS:
            continue
        buffer = graph.buffers.get(part.from_space)
        reaches = 1.0 if buffer is None else buffer.source_share
        steady = result.components[index].conductance * (inside - mean)
        each += reaches * (steady - result.working.periodic[index] * late)
    together = result.to_ground * (inside - result.ground_temperature)
    assert together == pytest.approx(each)


def test_the_year_as_a_whole_stands_at_its_mean():
    result = evaluate(small())
    amplitude = result.working.ground.harmonic.amplitude
    days = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    mean = float((result.ground_temperature * days).sum() / 365)
    assert mean == pytest.approx(result.working.ground.mean, abs=0.01 * amplitude)
    assert np.ptp(result.ground_temperature) > 0.5


def test_parts_of_which_only_u_is_known_have_no_wave():
    house = small()
    parts = tuple(
        replace(part, construction=FixedTransmittance(0.5)) if part.kind in GROUND_KINDS else part
        for part in house.components
    )
    result = evaluate(replace(house, components=parts))
    assert result.ground_temperature == pytest.approx([result.working.ground.mean] * 12)


def test_draws_of_the_weather_carry_their_own_waves():
    house = small()
    warmer = house.climate.mean_temperature + np.array([[0.0], [2.0]])
    both = evaluate(replace(house, climate=replace(house.climate, mean_temperature=warmer)))
    for row in range(2):
        climate = replace(house.climate, mean_temperature=warmer[row])
        alone = evaluate(replace(house, climate=climate))
        assert both.ground_temperature[row] == pytest.approx(alone.ground_temperature)
        assert both.heating_load_kwh[row] == pytest.approx(alone.heating_load_kwh)
