"""Properties that hold whatever the figures are."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.core.assembly import Assembly, FramedLayer, SolidLayer, total_resistance
from server.core.degree_days import cooling_degree_days, heating_degree_days
from server.core.evaluate import evaluate
from server.core.films import HeatFlow, unventilated_air_layer
from server.core.house import Component, FixedTransmittance, Kind
from server.core.materials import Material
from server.core.parts import heating_by_part
from server.core.solar import plane_irradiance, sun_geometry
from tests.factories import make_climate, make_house, make_wall, without_gains

CONDUCTIVITY = st.floats(0.02, 3.0)
THICKNESS = st.floats(0.005, 0.4)
FRACTION = st.floats(0.0, 1.0)
FLOW = st.sampled_from(list(HeatFlow))


@st.composite
def layer_lists(draw):
    layers = [SolidLayer(Material("m", draw(CONDUCTIVITY)), draw(THICKNESS))]
    for number in range(draw(st.integers(1, 3))):
        fill = draw(st.none() | st.builds(Material, st.just("fill"), CONDUCTIVITY))
        layers.append(
            FramedLayer(
                framing=Material("framing", draw(CONDUCTIVITY)),
                fraction=draw(FRACTION),
                depth=draw(THICKNESS),
                fill=fill,
                aligned=number > 0 and draw(st.booleans()),
                empty_share=draw(st.sampled_from([0.0, 0.02, 0.05])),
            )
        )
    return layers


@given(layers=layer_lists(), flow=FLOW)
def test_upper_limit_is_never_below_the_lower(layers, flow):
    limits = total_resistance(layers, flow, 0.13, 0.04)
    assert limits.upper >= limits.lower * (1.0 - 1e-12)


@given(conductivity=CONDUCTIVITY, thickness=THICKNESS, fraction=FRACTION, flow=FLOW)
def test_limits_are_equal_where_nothing_is_bridged(conductivity, thickness, fraction, flow):
    same = Material("same", conductivity)
    framed = FramedLayer(framing=same, fraction=fraction, depth=thickness, fill=same)
    limits = total_resistance([framed], flow, 0.13, 0.04)
    assert limits.upper == pytest.approx(limits.lower, rel=1e-12)
    assert limits.mean == pytest.approx(0.17 + thickness / conductivity, rel=1e-12)


@given(thickness=THICKNESS, more=st.floats(0.0, 0.3), flow=FLOW)
def test_a_thicker_air_layer_never_resists_less(thickness, more, flow):
    thin, thick = (
        unventilated_air_layer(thickness, flow),
        unventilated_air_layer(thickness + more, flow),
    )
    assert thick >= thin


@settings(deadline=None, max_examples=30)
@given(conductivity=st.floats(0.02, 0.1), board=st.floats(0.001, 0.3))
def test_more_insulation_never_raises_heating(conductivity, board):
    house = make_house()
    thicker = [
        replace(
            part,
            construction=Assembly(
                "more",
                (
                    *part.construction.layers,
                    SolidLayer(Material("board", conductivity), board),
                ),
            ),
        )
        if isinstance(part.construction, Assembly)
        else part
        for part in house.components
    ]
    before = evaluate(house).heating_load_kwh
    after = evaluate(replace(house, components=tuple(thicker))).heating_load_kwh
    assert after <= before


@settings(deadline=None, max_examples=30)
@given(
    area=st.floats(1.0, 500.0),
    set_point=st.floats(10.0, 24.0),
    warmer=st.floats(-25.0, 25.0),
    flow=st.floats(0.0, 0.5),
)
def test_shares_sum_to_the_whole(area, set_point, warmer, flow):
    climate = make_climate()
    house = make_house(
        climate=replace(climate, mean_temperature=climate.mean_temperature + warmer),
        heating_set_point=set_point,
    )
    wall = Component("more", Kind.WALL, "indoors", "outdoors", area, make_wall(None), 0.0)
    house = replace(
        house,
        components=(*house.components, wall),
        leakage=replace(house.leakage, flow_at_50_pa=flow),
    )
    result = evaluate(house)
    parts = sum(float(share) for share in heating_by_part(result).values())
    assert parts == pytest.approx(result.heating_load_kwh, rel=1e-9, abs=1e-9)
    each = sum(part.heating_share_kwh for part in result.components)
    whole = each + result.air_heating_share_kwh
    assert whole == pytest.approx(result.heating_load_kwh, rel=1e-9, abs=1e-9)


@settings(deadline=None, max_examples=20)
@given(set_point=st.floats(5.0, 30.0))
def test_without_gains_sun_or_sky_the_balance_point_is_the_set_point(set_point):
    house = make_house()
    no_sky = [
        replace(part, tilt=180.0, kind=Kind.FLOOR, shgc=None, shading=0.0)
        for part in house.components
    ]
    house = replace(
        house,
        components=tuple(no_sky),
        heating_set_point=set_point,
        cooling_set_point=set_point,
        **without_gains(),
    )
    result = evaluate(house)
    np.testing.assert_allclose(result.heating.balance_point, set_point, rtol=0, atol=1e-9)
    np.testing.assert_allclose(result.cooling.balance_point, set_point, rtol=0, atol=1e-9)


@given(
    mean=st.floats(-30.0, 40.0),
    deviation=st.floats(0.0, 10.0),
    base=st.floats(-10.0, 30.0),
)
def test_cooling_less_heating_degree_days_is_the_mean_difference(mean, deviation, base):
    warm = cooling_degree_days(mean, deviation, base, 31.0)
    cold = heating_degree_days(mean, deviation, base, 31.0)
    assert float(warm - cold) == pytest.approx(31.0 * (mean - base), abs=1e-9)


@settings(deadline=None, max_examples=40)
@given(
    latitude=st.floats(-75.0, 75.0),
    tilt=st.floats(0.0, 180.0),
    azimuth=st.none() | st.floats(0.0, 360.0),
    sun=st.floats(0.0, 30e6),
)
def test_sun_on_a_plane_is_never_negative_and_level_keeps_the_day(latitude, tilt, azimuth, sun):
    geometry = sun_geometry(latitude, [(0.0, None), (tilt, azimuth)])
    level, plane = plane_irradiance(geometry, np.full(12, sun))
    assert np.all(plane >= 0.0)
    np.testing.assert_allclose(level, sun / 86400.0, rtol=1e-12)


def test_azimuth_none_is_the_mean_round_the_compass():
    azimuths = [float(azimuth) for azimuth in range(0, 360, 45)]
    planes = [(90.0, None), *((90.0, azimuth) for azimuth in azimuths)]
    found = plane_irradiance(sun_geometry(40.0, planes), make_climate().horizontal_irradiation)
    np.testing.assert_allclose(found[0], found[1:].mean(axis=0), rtol=1e-12)


def test_a_window_and_a_door_of_one_u_lose_the_same():
    house = make_house()
    glass = FixedTransmittance(2.8)
    door = Component("door", Kind.DOOR, "indoors", "outdoors", 4.0, glass, 0.0)
    window = replace(door, name="window", kind=Kind.WINDOW)
    result = evaluate(replace(house, components=(*house.components, door, window)))
    assert result.components[-1].conductance == result.components[-2].conductance
