"""The wood-frame wall worked out in a handbook, path by path.

ASHRAE Handbook: Fundamentals, 2009 and 2013 chapter 27, 2005 chapter 25: parallel-path and
isothermal-planes example. Inputs and printed answers from memory; the arithmetic was redone.
Every figure is in inch-pound units, R in h ft2 F/Btu and U in Btu/(h ft2 F), as printed there.
"""

import pytest

from server.core.assembly import FramedLayer, ResistanceLayer, total_resistance
from server.core.films import ASHRAE_WINTER, HeatFlow
from server.core.materials import Material

R_UNIT = 0.1761102  # m2 K/W in one h ft2 F/Btu
INCH = 0.0254  # m

# Outside to inside: 0.17 + 0.81 + 4.0 + [batt 13.0 | stud 4.38] + 0.45 + 0.68.
OUTSIDE_FILM = 0.17
LAP_SIDING = 0.81
SHEATHING = 4.0
BATT = 13.0
STUD = 4.38  # 3 1/2 in at 1.25 per inch is 4.375
GYPSUM = 0.45
INSIDE_FILM = 0.68

# Shares of the wall area; headers are taken at the resistance of a stud.
STUDS_16_IN, HEADERS = 0.21, 0.04
STUDS_24_IN = 0.18

PRINTED = "ASHRAE Fundamentals wood-frame wall, printed (memory)"
ARITHMETIC = "arithmetic on the inputs of the ASHRAE example"
ISO_MEAN = "ISO 6946 mean of both limits, arithmetic on the same inputs"


def limits(framing_share):
    """Both limits of the wall's resistance, in h ft2 F/Btu."""
    depth = 3.5 * INCH
    wall = [
        ResistanceLayer(GYPSUM * R_UNIT),
        FramedLayer(
            framing=Material("stud", depth / (STUD * R_UNIT)),
            fraction=framing_share,
            depth=depth,
            fill=Material("batt", depth / (BATT * R_UNIT)),
        ),
        ResistanceLayer(SHEATHING * R_UNIT),
        ResistanceLayer(LAP_SIDING * R_UNIT),
    ]
    result = total_resistance(
        wall, HeatFlow.LEVEL, ASHRAE_WINTER.inside(HeatFlow.LEVEL), ASHRAE_WINTER.outside
    )
    return {
        "parallel": result.upper / R_UNIT,
        "isothermal": result.lower / R_UNIT,
        "mean": result.mean / R_UNIT,
    }


ALL_CAVITY, ALL_FRAMING = 0.0, 1.0
AT_16_IN = STUDS_16_IN + HEADERS
AT_24_IN = STUDS_24_IN + HEADERS

# Share of framing, which limit, expected R, tolerance, source.
RESISTANCES = [
    (ALL_CAVITY, "parallel", 19.11, 0.005, PRINTED),
    (ALL_FRAMING, "parallel", 10.49, 0.005, PRINTED),
    (AT_16_IN, "parallel", 15.853, 0.005, ARITHMETIC),
    (AT_16_IN, "isothermal", 14.823, 0.005, ARITHMETIC),
    (AT_16_IN, "mean", 15.338, 0.005, ISO_MEAN),
]

# Share of framing, which limit, expected U, tolerance, source.
TRANSMITTANCES = [
    (ALL_CAVITY, "parallel", 0.0523, 0.0001, ARITHMETIC),
    (ALL_CAVITY, "parallel", 0.052, 0.0005, PRINTED),
    (ALL_FRAMING, "parallel", 0.0953, 0.0001, ARITHMETIC),
    (ALL_FRAMING, "parallel", 0.095, 0.0005, PRINTED),
    (AT_16_IN, "parallel", 0.06308, 0.0001, ARITHMETIC),
    (AT_16_IN, "parallel", 0.063, 0.0005, PRINTED),
    (AT_16_IN, "isothermal", 0.06746, 0.0001, ARITHMETIC),
    (AT_16_IN, "isothermal", 0.067, 0.0005, PRINTED),
    (AT_16_IN, "mean", 0.0652, 0.0001, ISO_MEAN),
    (AT_24_IN, "parallel", 0.06179, 0.0001, ARITHMETIC),
]

# The same wall in W/(m2 K): limit, expected U, tolerance.
TRANSMITTANCES_SI = [
    ("parallel", 0.3582, 0.0001),
    ("isothermal", 0.3831, 0.0001),
]


@pytest.mark.parametrize(("share", "limit", "expected", "tolerance", "source"), RESISTANCES)
def test_resistance(share, limit, expected, tolerance, source):
    assert limits(share)[limit] == pytest.approx(expected, abs=tolerance), source


@pytest.mark.parametrize(("share", "limit", "expected", "tolerance", "source"), TRANSMITTANCES)
def test_transmittance(share, limit, expected, tolerance, source):
    assert 1 / limits(share)[limit] == pytest.approx(expected, abs=tolerance), source


@pytest.mark.parametrize(("limit", "expected", "tolerance"), TRANSMITTANCES_SI)
def test_transmittance_in_si(limit, expected, tolerance):
    u_value = 1 / (limits(AT_16_IN)[limit] * R_UNIT)
    assert u_value == pytest.approx(expected, abs=tolerance), ARITHMETIC


def test_parallel_path_is_the_sum_over_three_paths():
    """As the example's table has it: cavity 75 %, studs 21 %, headers 4 %."""
    around = OUTSIDE_FILM + LAP_SIDING + SHEATHING + GYPSUM + INSIDE_FILM  # 6.11
    cavity = 0.75 / (around + BATT)
    studs = STUDS_16_IN / (around + STUD)
    headers = HEADERS / (around + STUD)
    assert 1 / limits(AT_16_IN)["parallel"] == pytest.approx(cavity + studs + headers, rel=1e-6)


def test_isothermal_planes_average_the_framed_layer_alone():
    around = OUTSIDE_FILM + LAP_SIDING + SHEATHING + GYPSUM + INSIDE_FILM
    framed = 1 / (0.75 / BATT + 0.25 / STUD)
    assert limits(AT_16_IN)["isothermal"] == pytest.approx(around + framed, rel=1e-6)
