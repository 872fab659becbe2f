"""Vapour pressures against psychrolib and a printed benchmark; interstitial condensation by month.

Temperatures in deg C, pressures in Pa, water in kg/m2. The condensation cases are computed ones:
no printed example was at hand; they were found by two algorithms that agree within 2e-5 kg/m2
(event-driven planes, and 2000 implicit steps a month), and January of the first by hand.
"""

import psychrolib
import pytest

from server.core.moisture import (
    Climate13788,
    VapourLayer,
    dew_point,
    interstitial_year,
    needed_surface_factor,
    saturation_pressure,
    saturation_temperature,
)

psychrolib.SetUnitSystem(psychrolib.SI)

ISO_13788_ANNEX_E = "ISO 13788:2012 Annex E (memory)"
EXAMPLES = [
    (-20, 102.7),
    (-10, 259.3),
    (-5, 401.2),
    (0, 610.5),
    (10, 1227.3),
    (20, 2337.0),
    (30, 4240.5),
]


@pytest.mark.parametrize(("temperature", "pressure"), EXAMPLES)
def test_saturation_pressure_of_the_annex(temperature, pressure):
    assert saturation_pressure(float(temperature)) == pytest.approx(pressure, abs=0.06), (
        ISO_13788_ANNEX_E
    )


@pytest.mark.parametrize("temperature", range(-30, 41, 5))
def test_saturation_pressure_against_psychrolib(temperature):
    tolerance = 0.002 if temperature >= 0 else 0.006 if temperature >= -20 else 0.011
    theirs = psychrolib.GetSatVapPres(float(temperature))
    assert saturation_pressure(float(temperature)) == pytest.approx(theirs, rel=tolerance)
    back = saturation_temperature(saturation_pressure(float(temperature)))
    assert back == pytest.approx(temperature, abs=1e-9)


@pytest.mark.parametrize(
    ("temperature", "humidity", "expected"),
    [(20.0, 0.5, 9.269), (20.0, 0.6, 12.004), (21.0, 0.4, 6.896)],
)
def test_dew_point_against_psychrolib(temperature, humidity, expected):
    ours = dew_point(temperature, humidity)
    assert ours == pytest.approx(expected, abs=0.001)
    assert ours == pytest.approx(psychrolib.GetTDewPointFromRelHum(temperature, humidity), abs=0.02)


@pytest.mark.parametrize(
    ("inside", "humidity", "outside", "expected", "source"),
    [
        (20.0, 0.5, -5.0, 0.705, "DIN 4108-2 benchmark, 0.70 (memory)"),
        (20.0, 0.5, -10.0, 0.7542, "computed"),
        (20.0, 0.5, 0.0, 0.6312, "computed"),
        (20.0, 0.6, 0.0, 0.7717, "computed"),
        (21.0, 0.4, -10.0, 0.6512, "computed"),
    ],
)
def test_surface_factor_that_keeps_mould_away(inside, humidity, outside, expected, source):
    pressure = humidity * saturation_pressure(inside)
    ours = needed_surface_factor(inside, pressure, outside)
    assert ours == pytest.approx(expected, abs=0.002), source


CLIMATE = Climate13788(
    outdoor_temperature=(-1, 0, 4, 9, 14, 18, 19, 19, 15, 10, 5, 1),
    outdoor_humidity=(0.85, 0.84, 0.78, 0.72, 0.68, 0.69, 0.73, 0.75, 0.79, 0.83, 0.88, 0.88),
    indoor_temperature=(20.0,) * 12,
    indoor_pressure=(1369, 1404, 1347, 1316, 1354, 1512, 1648, 1692, 1569, 1464, 1435, 1424),
)


def layer(millimetres, conductivity, factor):
    thickness = millimetres / 1000
    return VapourLayer(thickness / conductivity, factor * thickness)


# layers outside to inside as in the table; ours go inside to outside
WALL = [layer(12.5, 0.25, 10), layer(140, 0.036, 1), layer(12.5, 0.13, 50)]
ROOF = [layer(150, 2.0, 80), layer(120, 0.036, 60), layer(5, 0.23, 20000)]
WALL_RATES = (
    0.2222,
    0.9313,
    1.3986,
    1.4653,
    1.2968,
    0.8398,
    -0.0145,
    -0.9892,
    -1.6314,
    -1.6291,
    -1.5025,
    -0.3874,
)
ROOF_RATES = (
    0.0050,
    0.0142,
    0.0205,
    0.0215,
    0.0191,
    0.0134,
    0.0024,
    -0.0099,
    -0.0183,
    -0.0185,
    -0.0171,
    -0.0058,
)


def test_a_wall_that_gets_wet_and_dries_by_september():
    year = interstitial_year(WALL, CLIMATE, inside_film=0.13, outside_film=0.04)
    assert year.first_month == 9  # October
    assert year.changes == pytest.approx(WALL_RATES, abs=0.002)
    assert year.peak == pytest.approx(6.154, abs=0.005)
    assert year.remaining == 0.0
    assert year.verdict == "dries"
    assert len(year.planes) == 1


def test_a_roof_that_does_not_dry():
    year = interstitial_year(ROOF, CLIMATE, inside_film=0.10, outside_film=0.04)
    assert year.first_month == 9
    assert year.changes == pytest.approx(ROOF_RATES, abs=0.0005)
    assert year.peak == pytest.approx(0.0960, abs=0.0005)
    assert year.remaining == pytest.approx(0.0263, abs=0.0005)
    assert year.verdict == "stays wet"


def test_january_of_the_wall_by_hand():
    """psat at the plane 594.59 Pa at -0.320 deg C, outdoors 477.73 Pa, 1.4653 kg/m2 in 31 days."""
    resistance = 0.13 + 0.05 + 0.14 / 0.036 + 0.0125 / 0.13 + 0.04
    plane = -1 + 21 * (0.04 + 0.0125 / 0.13) / resistance
    assert plane == pytest.approx(-0.320, abs=0.001)
    inward = (1369 - 594.59) / (0.14 * 1 + 0.0125 * 10)
    outward = (594.59 - 477.73) / (0.0125 * 50)
    by_hand = 2e-10 * (inward - outward) * 31 * 86400
    assert by_hand == pytest.approx(1.4653, abs=0.0005)
    year = interstitial_year(WALL, CLIMATE, inside_film=0.13, outside_film=0.04)
    assert year.changes[3] == pytest.approx(by_hand, abs=0.001)
