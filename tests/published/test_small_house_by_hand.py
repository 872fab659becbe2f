"""The small example house by plain arithmetic, and the program held against it.

The first part rebuilds tests/data/small-house.json the way a reader with a pocket calculator
would: every number that a reader would write down stands in an assertion, to four digits.
Nothing in it comes from the program.  The second part lets the program compute the same file
and compares every figure.  The house is taken as found and with the strategy
"Exterior continuous".

Months count from 0 (January) to 11 (December).  Everything is in W, m, K, Pa, kg, J, s unless
a name says otherwise.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from server.files.building import read_project

EXAMPLE = Path(__file__).resolve().parents[1] / "data" / "small-house.json"

JANUARY, MAY, JULY = 0, 4, 6
MONTHS = range(12)


def four(value):
    """Four significant digits, as written down beside the calculator."""
    return float(f"{value:.4g}")


def row(text):
    """Twelve months in a line."""
    return [float(number) for number in text.split()]


# ---------------------------------------------------------------------------------------------
# 1  Units
# ---------------------------------------------------------------------------------------------

FOOT = 0.3048
INCH = 0.0254
FOOT2 = FOOT**2
FOOT3 = FOOT**3
BTU = 1055.056  # J, international table; the therm of United States law is 0.02 % smaller
THERM_KWH = 1e5 * BTU / 3.6e6
# One h ft2 F/Btu in m2 K/W: 3600 s x 0.09290304 m2 x (5/9) K over 1055.056 J.
R_IMPERIAL = 3600 * FOOT2 * 5 / 9 / BTU
U_IMPERIAL = 1 / R_IMPERIAL
HEATING_SET_POINT = (70 - 32) * 5 / 9
COOLING_SET_POINT = (75 - 32) * 5 / 9
FLOOR_AREA = 1600 * FOOT2
BEDROOMS = 3


def test_units():
    assert four(R_IMPERIAL) == 0.1761
    assert four(U_IMPERIAL) == 5.678
    assert four(THERM_KWH) == 29.31
    assert four(HEATING_SET_POINT) == 21.11
    assert four(COOLING_SET_POINT) == 23.89
    assert four(FLOOR_AREA) == 148.6


# ---------------------------------------------------------------------------------------------
# 2  Layers, films and air layers (ISO 6946:2017: combined method 6.7.2, films 6.8, air layers
#    6.9; clause numbers from memory)
# ---------------------------------------------------------------------------------------------

INSIDE_FILM_UP = 0.10
INSIDE_FILM_LEVEL = 0.13
INSIDE_FILM_DOWN = 0.17
OUTSIDE_FILM = 0.04
AIR_LAYER_LEVEL = 0.18  # unventilated, 25 mm and thicker, heat flowing sideways

# Layer resistances, thickness over conductivity.
PLASTER = 7 / 8 * INCH / 0.30
STUD = 3.625 * INCH / 0.13
BOARDS = 3 / 4 * INCH / 0.13
LAP_SIDING = 1 / 2 * INCH / 0.115
CELLULOSE_3_IN = 3 * INCH / 0.042
JOIST_3_IN = 3 * INCH / 0.13
ROOFING = 0.44 * R_IMPERIAL
WOOL_4_IN = 4 * INCH / 0.036
WOOL_8_IN = 8 * INCH / 0.036
CONCRETE_4_IN = 4 * INCH / 2.0


def test_layers():
    assert four(PLASTER) == 0.07408
    assert four(STUD) == 0.7083
    assert four(BOARDS) == 0.1465
    assert four(LAP_SIDING) == 0.1104
    assert four(CELLULOSE_3_IN) == 1.814
    assert four(JOIST_3_IN) == 0.5862
    assert four(ROOFING) == 0.07749
    assert four(WOOL_4_IN) == 2.822
    assert four(WOOL_8_IN) == 5.644
    assert four(CONCRETE_4_IN) == 0.0508


# Wall as found: plaster, 25 % studs beside an empty bay, boards, siding.
WALL_ALL = INSIDE_FILM_LEVEL + PLASTER + BOARDS + LAP_SIDING + OUTSIDE_FILM
WALL_AT_STUD = WALL_ALL + STUD
WALL_AT_BAY = WALL_ALL + AIR_LAYER_LEVEL
STUDS_AND_BAYS = 1 / (0.25 / STUD + 0.75 / AIR_LAYER_LEVEL)
WALL_UPPER = 1 / (0.25 / WALL_AT_STUD + 0.75 / WALL_AT_BAY)
WALL_LOWER = WALL_ALL + STUDS_AND_BAYS
WALL_R = (WALL_UPPER + WALL_LOWER) / 2
WALL_U = 1 / WALL_R


def test_wall_as_found():
    assert four(WALL_AT_STUD) == 1.209
    assert four(WALL_AT_BAY) == 0.6811
    assert four(STUDS_AND_BAYS) == 0.2213
    assert four(WALL_UPPER) == 0.7646
    assert four(WALL_LOWER) == 0.7223
    assert four(WALL_R) == 0.7434
    assert four(WALL_U) == 1.345


# Ceiling as found: 3 in of cellulose between 5 1/2 in joists, open above.  The joist counts to
# the height of the fill, there is no air layer, and the attic side takes an inside film.
CEILING_ALL = INSIDE_FILM_UP + PLASTER + INSIDE_FILM_UP
CEILING_AT_JOIST = CEILING_ALL + JOIST_3_IN
CEILING_AT_FILL = CEILING_ALL + CELLULOSE_3_IN
CEILING_UPPER = 1 / (0.10 / CEILING_AT_JOIST + 0.90 / CEILING_AT_FILL)
CEILING_LOWER = CEILING_ALL + 1 / (0.10 / JOIST_3_IN + 0.90 / CELLULOSE_3_IN)
CEILING_R = (CEILING_UPPER + CEILING_LOWER) / 2
CEILING_U = 1 / CEILING_R


def test_ceiling_as_found():
    assert four(CEILING_AT_JOIST) == 0.8602
    assert four(CEILING_AT_FILL) == 2.088
    assert four(CEILING_UPPER) == 1.827
    assert four(CEILING_LOWER) == 1.774
    assert four(CEILING_R) == 1.801
    assert four(CEILING_U) == 0.5553


# Roof (35 degrees: heat flows up) and gables (level) have one path each, so both limits agree.
ROOF_R = INSIDE_FILM_UP + BOARDS + ROOFING + OUTSIDE_FILM
GABLE_R = INSIDE_FILM_LEVEL + BOARDS + LAP_SIDING + OUTSIDE_FILM
ROOF_U = 1 / ROOF_R
GABLE_U = 1 / GABLE_R
WINDOW_U = 0.55 * U_IMPERIAL
DOOR_U = 0.50 * U_IMPERIAL


def test_roof_gable_and_openings_as_found():
    assert four(ROOF_R) == 0.364
    assert four(ROOF_U) == 2.747
    assert four(GABLE_R) == 0.427
    assert four(GABLE_U) == 2.342
    assert four(WINDOW_U) == 3.123
    assert four(DOOR_U) == 2.839


# Exterior continuous.  The siding comes off, 4 in of mineral wool goes on; behind the new
# siding the air layer is well ventilated, so it and the siding are dropped and the outer
# surface takes the inside film (ISO 6946 6.9.4).  Roof: 8 in, roofing dropped likewise.
NEW_WALL_ALL = INSIDE_FILM_LEVEL + PLASTER + BOARDS + WOOL_4_IN + INSIDE_FILM_LEVEL
NEW_WALL_UPPER = 1 / (0.25 / (NEW_WALL_ALL + STUD) + 0.75 / (NEW_WALL_ALL + AIR_LAYER_LEVEL))
NEW_WALL_LOWER = NEW_WALL_ALL + STUDS_AND_BAYS
NEW_WALL_R = (NEW_WALL_UPPER + NEW_WALL_LOWER) / 2
NEW_GABLE_R = INSIDE_FILM_LEVEL + BOARDS + WOOL_4_IN + INSIDE_FILM_LEVEL
NEW_ROOF_R = INSIDE_FILM_UP + BOARDS + WOOL_8_IN + INSIDE_FILM_UP
NEW_WALL_U = 1 / NEW_WALL_R
NEW_GABLE_U = 1 / NEW_GABLE_R
NEW_ROOF_U = 1 / NEW_ROOF_R


def test_exterior_continuous_layers():
    assert four(NEW_WALL_UPPER) == 3.601
    assert four(NEW_WALL_LOWER) == 3.524
    assert four(NEW_WALL_R) == 3.563
    assert four(NEW_WALL_U) == 0.2807
    assert four(NEW_GABLE_R) == 3.229
    assert four(NEW_GABLE_U) == 0.3097
    assert four(NEW_ROOF_R) == 5.991
    assert four(NEW_ROOF_U) == 0.1669


# ---------------------------------------------------------------------------------------------
# 3  Ground (ISO 13370, slab on ground): clay 1.5 W/(m K), wall 8 in, no edge insulation
# ---------------------------------------------------------------------------------------------

SOIL = 1.5
SLAB_AREA = 800 * FOOT2
SLAB_PERIMETER = 114 * FOOT
B_DASH = SLAB_AREA / (SLAB_PERIMETER / 2)
EQUIVALENT_THICKNESS = 8 * INCH + SOIL * (INSIDE_FILM_DOWN + CONCRETE_4_IN + OUTSIDE_FILM)
SLAB_U = (
    2
    * SOIL
    / (math.pi * B_DASH + EQUIVALENT_THICKNESS)
    * math.log(math.pi * B_DASH / EQUIVALENT_THICKNESS + 1)
)
K_GROUND = SLAB_U * SLAB_AREA


def test_slab():
    assert four(B_DASH) == 4.278
    assert four(EQUIVALENT_THICKNESS) == 0.5944
    assert EQUIVALENT_THICKNESS < B_DASH  # so the logarithmic formula is the one
    assert four(SLAB_U) == 0.6759
    assert four(K_GROUND) == 50.23


# ---------------------------------------------------------------------------------------------
# 4  Site air: 270 m, dry air at 20 C
# ---------------------------------------------------------------------------------------------

PRESSURE = 101325 * (1 - 2.25577e-5 * 270) ** 5.2559
AIR_DENSITY = PRESSURE / (287.055 * 293.15)
AIR_HEAT = AIR_DENSITY * 1006  # J/(m3 K)


def test_site_air():
    assert four(PRESSURE) == 98120.0
    assert four(AIR_DENSITY) == 1.166
    assert four(AIR_HEAT) == 1173.0


# ---------------------------------------------------------------------------------------------
# 5  UA by part, the attic balance, k_outdoors
# ---------------------------------------------------------------------------------------------

SOUTH_WALL = 454 * FOOT2
NORTH_WALL = 474 * FOOT2
SIDE_WALL = 395 * FOOT2  # east, and west
SOUTH_WINDOWS = 70 * FOOT2
NORTH_WINDOWS = 50 * FOOT2
SIDE_WINDOWS = 30 * FOOT2  # east, and west
DOOR = 20 * FOOT2  # south, and north
CEILING = 800 * FOOT2
ROOF_SLOPE = 488 * FOOT2  # south, and north
GABLE = 109 * FOOT2  # east, and west
WALLS = SOUTH_WALL + NORTH_WALL + 2 * SIDE_WALL
WINDOWS = SOUTH_WINDOWS + NORTH_WINDOWS + 2 * SIDE_WINDOWS
JUNCTION_LENGTH = 114 * FOOT

WALLS_UA = WALL_U * WALLS
WINDOWS_UA = WINDOW_U * WINDOWS
DOORS_UA = DOOR_U * 2 * DOOR
JUNCTION_UA = 0.15 * JUNCTION_LENGTH

# The attic: from below through the ceiling, outwards through slopes, gables and 3 changes/h.
CEILING_UA = CEILING_U * CEILING
SLOPES_UA = ROOF_U * 2 * ROOF_SLOPE
GABLES_UA = GABLE_U * 2 * GABLE
ATTIC_AIR = AIR_HEAT * 3500 * FOOT3 * 3 / 3600
ATTIC_OUT = SLOPES_UA + GABLES_UA + ATTIC_AIR
THROUGH_ATTIC = 1 / (1 / CEILING_UA + 1 / ATTIC_OUT)
# Of a watt put in at the attic, this share reaches indoors.
ATTIC_SHARE = CEILING_UA / (CEILING_UA + ATTIC_OUT)

K_OUTDOORS = WALLS_UA + WINDOWS_UA + DOORS_UA + JUNCTION_UA + THROUGH_ATTIC


def test_as_found_conductances():
    assert four(WALLS) == 159.6
    assert four(WALLS_UA) == 214.7
    assert four(WINDOWS_UA) == 52.23
    assert four(DOORS_UA) == 10.55
    assert four(JUNCTION_UA) == 5.212
    assert four(CEILING_UA) == 41.27
    assert four(SLOPES_UA) == 249.1
    assert four(GABLES_UA) == 47.43
    assert four(ATTIC_AIR) == 96.88
    assert four(ATTIC_OUT) == 393.4
    assert four(THROUGH_ATTIC) == 37.35
    assert four(ATTIC_SHARE) == 0.09495
    assert four(K_OUTDOORS) == 320.0


# Exterior continuous: the attic is inside, its vents closed; the ceiling carries nothing.
NEW_WALLS_UA = NEW_WALL_U * WALLS
NEW_GABLES_UA = NEW_GABLE_U * 2 * GABLE
NEW_SLOPES_UA = NEW_ROOF_U * 2 * ROOF_SLOPE
NEW_JUNCTION_UA = 0.05 * JUNCTION_LENGTH
NEW_K_OUTDOORS = (
    NEW_WALLS_UA + WINDOWS_UA + DOORS_UA + NEW_JUNCTION_UA + NEW_GABLES_UA + NEW_SLOPES_UA
)


def test_exterior_continuous_conductances():
    assert four(NEW_WALLS_UA) == 44.8
    assert four(NEW_GABLES_UA) == 6.273
    assert four(NEW_SLOPES_UA) == 15.13
    assert four(NEW_JUNCTION_UA) == 1.737
    assert four(NEW_K_OUTDOORS) == 130.7


# ---------------------------------------------------------------------------------------------
# 6  Climate of the file
# ---------------------------------------------------------------------------------------------

DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
MEAN = [4, 6, 10, 15, 19.5, 23.8, 25.6, 25, 21.6, 15.5, 10, 5.5]
SPREAD = [5.4, 5.0, 5.0, 4.2, 3.4, 2.5, 1.8, 1.9, 3.0, 4.0, 4.6, 5.0]
SUN_MJ = [9.0, 12.0, 15.8, 19.8, 21.6, 22.6, 21.6, 19.8, 17.0, 14.0, 10.0, 8.2]
WIND = [3.5, 3.7, 3.9, 3.8, 3.3, 3.0, 2.8, 2.7, 2.9, 2.9, 3.2, 3.3]
HUMIDITY_G = [3.2, 3.5, 4.6, 6.3, 9.3, 12.6, 14.6, 14.2, 11.4, 7.6, 5.0, 3.6]
LATITUDE = math.radians(36.1)

YEAR_MEAN = sum(n * t for n, t in zip(DAYS, MEAN, strict=True)) / 365


def by_days(values):
    return sum(n * value for n, value in zip(DAYS, values, strict=True)) / 365


# The ground: the year's mean outdoor temperature, and of outdoors' yearly wave the share H_pe/H_g,
# a month late. ISO 13370:2007 Annex H (memory): H_pe = 0.37 P k ln(delta/d_t + 1), clay 2.2 m deep.
PENETRATION = math.sqrt(3.15e7 * SOIL / (math.pi * 3.0e6))
H_PERIODIC = 0.37 * SLAB_PERIMETER * SOIL * math.log(PENETRATION / EQUIVALENT_THICKNESS + 1)
COSINE = sum(t * math.cos(2 * math.pi * (m + 1) / 12) for m, t in enumerate(MEAN)) / 6
SINE = sum(t * math.sin(2 * math.pi * (m + 1) / 12) for m, t in enumerate(MEAN)) / 6
GROUND_TEMPERATURE = [
    YEAR_MEAN
    + H_PERIODIC
    / K_GROUND
    * (COSINE * math.cos(2 * math.pi * m / 12) + SINE * math.sin(2 * math.pi * m / 12))
    for m in range(12)  # a month late: January takes what December's place in the wave is
]


def test_climate():
    assert four(YEAR_MEAN) == 15.17


def test_ground_wave():
    assert round(PENETRATION, 1) == 2.2
    assert four(H_PERIODIC) == 30.12
    assert four(H_PERIODIC / K_GROUND) == 0.5996
    assert four(math.hypot(COSINE, SINE)) == 10.75
    assert GROUND_TEMPERATURE.index(min(GROUND_TEMPERATURE)) == 1  # coldest in February
    assert sum(GROUND_TEMPERATURE) / 12 == pytest.approx(YEAR_MEAN)


# ---------------------------------------------------------------------------------------------
# 7  Infiltration (ASHRAE basic model): 2 storeys, shelter class 3
# ---------------------------------------------------------------------------------------------

STACK = 0.000290
WIND_COEFFICIENT = 0.000231


def leakage_area(ach50, volume):
    """Effective leakage area at 4 Pa, cm2."""
    flow_50 = ach50 * volume / 3600
    flow_4 = flow_50 * (4 / 50) ** 0.65
    return 1e4 * flow_4 * math.sqrt(1.2041 / (2 * 4))


def infiltration(area, difference, wind):
    """m3/s, from the leakage area in cm2."""
    return area / 1000 * math.sqrt(STACK * abs(difference) + WIND_COEFFICIENT * wind**2)


VOLUME = 13600 * FOOT3
NEW_VOLUME = (13600 + 3500) * FOOT3
LEAKAGE = leakage_area(12, VOLUME)
NEW_LEAKAGE = leakage_area(3.5, NEW_VOLUME)
NEW_VENTILATION = 60 * FOOT3 / 60  # 60 cubic feet a minute, m3/s
RECOVERY = 0.7


def test_leakage():
    assert four(VOLUME) == 385.1
    assert four(12 * VOLUME / 3600) == 1.284
    assert four(12 * VOLUME / 3600 * (4 / 50) ** 0.65) == 0.2486
    assert four(LEAKAGE) == 964.4
    assert four(NEW_VOLUME) == 484.2
    assert four(NEW_LEAKAGE) == 353.7
    assert four(NEW_VENTILATION) == 0.02832


# ---------------------------------------------------------------------------------------------
# 8  Sun on a plane, mean W/m2 of the month
# ---------------------------------------------------------------------------------------------

MEAN_DAY = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344]  # Klein
# Sunrise to sunset in so many equal parts.  They fit the day exactly: where the low sun shines
# on an east or west wall, a fixed clock that cuts through sunrise is off by a per cent or more.
PARTS = 240


def declination(m):
    return math.radians(23.45) * math.sin(2 * math.pi * (284 + MEAN_DAY[m]) / 365)  # Cooper


def sunset(m):
    return math.acos(-math.tan(LATITUDE) * math.tan(declination(m)))


def extraterrestrial(m):
    """Daily sum on the horizontal above the air, MJ/m2."""
    tilt, end = declination(m), sunset(m)
    distance = 1 + 0.033 * math.cos(2 * math.pi * MEAN_DAY[m] / 365)
    return (
        86400
        / math.pi
        * 1367
        * distance
        / 1e6
        * (
            math.cos(LATITUDE) * math.cos(tilt) * math.sin(end)
            + end * math.sin(LATITUDE) * math.sin(tilt)
        )
    )


def diffuse_fraction(m):
    """Erbs, monthly."""
    k = min(max(SUN_MJ[m] / extraterrestrial(m), 0.3), 0.8)
    if sunset(m) < math.radians(81.4):
        return 1.391 - 3.560 * k + 4.189 * k**2 - 2.137 * k**3
    return 1.311 - 3.022 * k + 3.427 * k**2 - 1.821 * k**3


@cache
def sun(m, tilt_degrees, azimuth_degrees):
    """Beam + isotropic sky + ground (albedo 0.2) over Klein's mean day, W/m2 around the clock."""
    delta, end = declination(m), sunset(m)
    beta, gamma = math.radians(tilt_degrees), math.radians(azimuth_degrees - 180)
    a = 0.409 + 0.5016 * math.sin(end - math.pi / 3)
    b = 0.6609 - 0.4767 * math.sin(end - math.pi / 3)
    total_shape, diffuse_shape, beam_ratio = [], [], []
    for part in range(PARTS):
        hour = end * ((2 * part + 1) / PARTS - 1)  # hour angle, middle of the part
        arch = math.cos(hour) - math.cos(end)
        total_shape.append((a + b * math.cos(hour)) * arch)  # Collares-Pereira and Rabl
        diffuse_shape.append(arch)  # Liu and Jordan
        zenith = math.cos(LATITUDE) * math.cos(delta) * arch
        incidence = (
            math.sin(delta) * math.sin(LATITUDE) * math.cos(beta)
            - math.sin(delta) * math.cos(LATITUDE) * math.sin(beta) * math.cos(gamma)
            + math.cos(delta) * math.cos(LATITUDE) * math.cos(beta) * math.cos(hour)
            + math.cos(delta)
            * math.sin(LATITUDE)
            * math.sin(beta)
            * math.cos(gamma)
            * math.cos(hour)
            + math.cos(delta) * math.sin(beta) * math.sin(gamma) * math.sin(hour)
        )
        beam_ratio.append(max(incidence, 0) / zenith)
    horizontal = SUN_MJ[m] * 1e6 / 86400
    diffuse = horizontal * diffuse_fraction(m)
    # Both profiles are normalised: the parts add up to the day.
    all_total, all_diffuse = sum(total_shape), sum(diffuse_shape)
    beam = sum(
        max(horizontal * total / all_total - diffuse * veil / all_diffuse, 0) * ratio
        for total, veil, ratio in zip(total_shape, diffuse_shape, beam_ratio, strict=True)
    )
    sky = diffuse * (1 + math.cos(beta)) / 2
    bounced = horizontal * 0.2 * (1 - math.cos(beta)) / 2
    return beam + sky + bounced


def test_sun_in_january():
    assert four(math.degrees(declination(JANUARY))) == -20.92
    assert four(math.degrees(sunset(JANUARY))) == 73.82
    assert four(extraterrestrial(JANUARY)) == 17.6
    assert four(SUN_MJ[JANUARY] / extraterrestrial(JANUARY)) == 0.5113
    assert four(diffuse_fraction(JANUARY)) == 0.3802
    assert four(sun(JANUARY, 90, 180)) == 150.8
    assert four(sun(JANUARY, 90, 0)) == 30.22
    assert four(sun(JANUARY, 90, 90)) == 69.23
    assert four(sun(JANUARY, 35, 180)) == 160.0
    assert four(sun(JANUARY, 35, 0)) == 37.91


def test_sun_in_july():
    assert four(math.degrees(declination(JULY))) == 21.18
    assert four(math.degrees(sunset(JULY))) == 106.4
    assert four(extraterrestrial(JULY)) == 40.7
    assert four(SUN_MJ[JULY] / extraterrestrial(JULY)) == 0.5307
    assert four(diffuse_fraction(JULY)) == 0.4002
    assert four(sun(JULY, 90, 180)) == 100.1
    assert four(sun(JULY, 90, 0)) == 90.39
    assert four(sun(JULY, 90, 90)) == 140.1
    assert four(sun(JULY, 35, 180)) == 226.5
    assert four(sun(JULY, 35, 0)) == 212.8


@pytest.mark.parametrize("m", MONTHS)
def test_sun_on_a_level_plane_is_the_measured_sun(m):
    assert sun(m, 0, 180) == pytest.approx(SUN_MJ[m] * 1e6 / 86400, rel=1e-9)
    assert sun(m, 90, 90) == pytest.approx(sun(m, 90, 270), rel=1e-9)


# ---------------------------------------------------------------------------------------------
# 9  Gains
# ---------------------------------------------------------------------------------------------

# IECC reference design: 17 900 + 23.8 per ft2 + 4104 per bedroom, Btu a day.
PEOPLE = (17900 + 23.8 * 1600 + 4104 * BEDROOMS) * BTU / 86400

SKY = 5 * 0.9 * 11  # hr x (air - sky), W/m2, for a face that sees the whole sky


def window_sun(m):
    """0.9 SHGC shading area I (ISO 13790 Fw), all four sides."""
    lit = (
        SOUTH_WINDOWS * sun(m, 90, 180)
        + NORTH_WINDOWS * sun(m, 90, 0)
        + SIDE_WINDOWS * sun(m, 90, 90)
        + SIDE_WINDOWS * sun(m, 90, 270)
    )
    return 0.9 * 0.60 * 0.8 * lit


def door_sun(m):
    """U A Rse alpha I of both doors (ISO 13790 11.3.5)."""
    return DOOR_U * DOOR * OUTSIDE_FILM * 0.6 * (sun(m, 90, 180) + sun(m, 90, 0))


def wall_sun(m):
    lit = (
        SOUTH_WALL * sun(m, 90, 180)
        + NORTH_WALL * sun(m, 90, 0)
        + SIDE_WALL * sun(m, 90, 90)
        + SIDE_WALL * sun(m, 90, 270)
    )
    return WALL_U * OUTSIDE_FILM * 0.6 * lit


def attic_sun(m):
    """Absorbed at the attic by slopes and gables."""
    slopes = ROOF_U * ROOF_SLOPE * 0.85 * (sun(m, 35, 180) + sun(m, 35, 0))
    gables = GABLE_U * GABLE * 0.6 * (sun(m, 90, 90) + sun(m, 90, 270))
    return OUTSIDE_FILM * (slopes + gables)


# To the sky, U A Rse F hr 11 K (ISO 13790 11.4.6); a wall sees half of it, a slope most.
SKY_OPENINGS = (WINDOWS_UA + DOORS_UA) * OUTSIDE_FILM * 0.5 * SKY
SKY_WALLS = WALLS_UA * OUTSIDE_FILM * 0.5 * SKY
SLOPE_SEES = (1 + math.cos(math.radians(35))) / 2
SKY_ATTIC = OUTSIDE_FILM * SKY * (SLOPES_UA * SLOPE_SEES + GABLES_UA * 0.5)


# Of what radiates onto inside surfaces, 4.5 times the floor area, U Rsi of each surface that leads
# out leaves at once; through the attic some comes back. Half of people and appliances radiate.
LED_OUT = (
    INSIDE_FILM_LEVEL * (WALLS_UA + WINDOWS_UA + DOORS_UA)
    + INSIDE_FILM_UP * CEILING_UA * (1 - ATTIC_SHARE)
    + INSIDE_FILM_DOWN * K_GROUND
) / (4.5 * FLOOR_AREA)
NEW_LED_OUT = (
    INSIDE_FILM_LEVEL * (NEW_WALLS_UA + NEW_GABLES_UA + WINDOWS_UA + DOORS_UA)
    + INSIDE_FILM_UP * NEW_SLOPES_UA
    + INSIDE_FILM_DOWN * K_GROUND
) / (4.5 * FLOOR_AREA)


def from_inside(m, led_out):
    """People and appliances and the sun let in, as they warm the room."""
    return PEOPLE * (1 - led_out / 2) + window_sun(m) * (1 - led_out)


def gains_as_found(m):
    """People + sun through openings + sun on opaque - sky, W."""
    opaque = wall_sun(m) + door_sun(m) + ATTIC_SHARE * attic_sun(m)
    sky = SKY_OPENINGS + SKY_WALLS + ATTIC_SHARE * SKY_ATTIC
    return from_inside(m, LED_OUT) + opaque - sky


def gains_exterior(m):
    """Walls, gables and slopes lie behind a well ventilated layer: no sun and no sky there."""
    return from_inside(m, NEW_LED_OUT) + door_sun(m) - SKY_OPENINGS


def test_people_and_sky():
    assert four(PEOPLE) == 833.9
    assert four(LED_OUT) == 0.07228
    assert four(NEW_LED_OUT) == 0.03716
    assert four(SKY_OPENINGS) == 62.15
    assert four(SKY_WALLS) == 212.5
    assert four(SLOPE_SEES) == 0.9096
    assert four(SKY_ATTIC) == 495.6
    assert four(ATTIC_SHARE * SKY_ATTIC) == 47.05


def test_gains_in_january():
    assert four(window_sun(JANUARY)) == 651.1
    assert four(door_sun(JANUARY)) == 22.92
    assert four(wall_sun(JANUARY)) == 412.4
    assert four(attic_sun(JANUARY)) == 916.8
    assert four(ATTIC_SHARE * attic_sun(JANUARY)) == 87.05
    assert four(gains_as_found(JANUARY)) == 1608.0
    assert four(gains_exterior(JANUARY)) == 1406.0


def test_gains_in_july():
    assert four(window_sun(JULY)) == 800.0
    assert four(door_sun(JULY)) == 24.12
    assert four(wall_sun(JULY)) == 596.7
    assert four(attic_sun(JULY)) == 2019.0
    assert four(ATTIC_SHARE * attic_sun(JULY)) == 191.7
    assert four(gains_as_found(JULY)) == 2037.0
    assert four(gains_exterior(JULY)) == 1551.0


# ---------------------------------------------------------------------------------------------
# 10  Degree-days to any base (Schoenau and Kehrig)
# ---------------------------------------------------------------------------------------------


def below(z):
    """Share of a normal distribution below z."""
    return (1 + math.erf(z / math.sqrt(2))) / 2


def bell(z):
    return math.exp(-(z**2) / 2) / math.sqrt(2 * math.pi)


def heating_degree_days(base, m):
    z = (base - MEAN[m]) / SPREAD[m]
    return DAYS[m] * SPREAD[m] * (z * below(z) + bell(z))


def cooling_degree_days(base, m):
    z = (MEAN[m] - base) / SPREAD[m]
    return DAYS[m] * SPREAD[m] * (z * below(z) + bell(z))


def test_degree_days():
    # At base = mean the formula leaves N sigma / sqrt(2 pi); far above, N (base - mean).
    assert four(heating_degree_days(4, JANUARY)) == 66.78
    assert four(heating_degree_days(40, JANUARY)) == 31 * 36
    assert heating_degree_days(20, JULY) + 31 * 5.6 == pytest.approx(cooling_degree_days(20, JULY))


# ---------------------------------------------------------------------------------------------
# 11  January as found, every step
# ---------------------------------------------------------------------------------------------


def test_january_as_found():
    difference = HEATING_SET_POINT - 4
    flow = LEAKAGE / 1000 * math.sqrt(0.000290 * difference + 0.000231 * 3.5**2)
    k_air = AIR_HEAT * flow
    k_all = K_OUTDOORS + k_air
    to_ground = K_GROUND * (HEATING_SET_POINT - GROUND_TEMPERATURE[JANUARY])
    free = (gains_as_found(JANUARY) - to_ground) / k_all
    balance = HEATING_SET_POINT - free
    z = (balance - 4) / 5.4
    degree_days = 31 * 5.4 * (z * below(z) + bell(z))
    load = k_all * 24 * degree_days / 1000
    assert four(difference) == 17.11
    assert four(flow) == 0.08513
    assert four(flow * 3600 / VOLUME) == 0.7958
    assert four(k_air) == 99.86
    assert four(k_all) == 419.9
    assert four(to_ground) == 571.8
    assert four(free) == 2.469
    assert four(balance) == 18.64
    assert four(z) == 2.712
    assert four(below(z)) == 0.9967
    assert four(bell(z)) == 0.0101
    assert four(degree_days) == 454.1
    assert four(load) == 4576.0
    assert load == pytest.approx(heating(AS_FOUND, JANUARY).load)


def test_july_as_found():
    # No heating worth the name: the balance point is far below the month's mean.
    assert four(heating(AS_FOUND, JULY).balance_point) == 15.86
    assert heating(AS_FOUND, JULY).load < 1e-4
    # Cooling at its own set point; the air outside is warmer by less than two kelvin.
    difference = 25.6 - COOLING_SET_POINT
    flow = LEAKAGE / 1000 * math.sqrt(0.000290 * difference + 0.000231 * 2.8**2)
    k_closed = K_OUTDOORS + AIR_HEAT * flow
    k_open = K_OUTDOORS + AIR_HEAT * VOLUME * 2 / 3600
    surplus = gains_as_found(JULY) - K_GROUND * (COOLING_SET_POINT - GROUND_TEMPERATURE[JULY])
    balance_closed = COOLING_SET_POINT - surplus / k_closed
    balance_open = COOLING_SET_POINT - surplus / k_open
    z_closed = (25.6 - balance_closed) / 1.8
    z_open = (25.6 - balance_open) / 1.8
    days_closed = 31 * 1.8 * (z_closed * below(z_closed) + bell(z_closed))
    days_open = 31 * 1.8 * (z_open * below(z_open) + bell(z_open))
    extra = (balance_open - balance_closed) * 31 * below(z_open)
    load_closed = 24 * k_closed * days_closed / 1000
    load_open = 24 * k_closed * (days_open + extra) / 1000
    # 14.6 g/kg is above 13: nobody opens the windows, the whole month counts as closed.
    opened = min(max((13 - 14.6) / (13 - 9), 0), 1)
    load = opened * load_open + (1 - opened) * load_closed
    hours = 24 * 31 * (opened * below(z_open) + (1 - opened) * below(z_closed))
    moisture = AIR_DENSITY * 2.5e6 * flow * (0.0146 - 0.0093)
    people = 20 + 0.22 * FLOOR_AREA + 12 * (3 + 1)
    latent = (moisture + people) * hours / 1000
    assert four(difference) == 1.711
    assert four(flow) == 0.04632
    assert four(k_closed) == 374.4
    assert four(k_open) == 571.0
    assert four(surplus) == 1872.0
    assert four(balance_closed) == 18.89
    assert four(balance_open) == 20.61
    assert four(z_closed) == 3.729
    assert four(z_open) == 2.772
    assert four(days_closed) == 208.1
    assert four(days_open) == 154.7
    assert four(load_closed) == 1870.0
    assert four(load_open) == 1869.0
    assert four(load) == 1870.0
    assert four(hours) == 743.9
    assert four(moisture) == 715.7
    assert four(people) == 100.7
    assert four(latent) == 607.4
    month = cooling(AS_FOUND, JULY)
    assert opened == month.opened == 0
    assert load_open == pytest.approx(month.load_open)
    assert load == pytest.approx(month.load)
    assert latent == pytest.approx(month.latent)


def test_may_as_found():
    # Between the seasons, 9.3 g/kg: the windows stand open most of the time.
    difference = COOLING_SET_POINT - 19.5
    flow = LEAKAGE / 1000 * math.sqrt(0.000290 * difference + 0.000231 * 3.3**2)
    k_closed = K_OUTDOORS + AIR_HEAT * flow
    k_open = K_OUTDOORS + AIR_HEAT * VOLUME * 2 / 3600
    surplus = gains_as_found(MAY) - K_GROUND * (COOLING_SET_POINT - GROUND_TEMPERATURE[MAY])
    balance_closed = COOLING_SET_POINT - surplus / k_closed
    balance_open = COOLING_SET_POINT - surplus / k_open
    z_closed = (19.5 - balance_closed) / 3.4
    z_open = (19.5 - balance_open) / 3.4
    days_closed = 31 * 3.4 * (z_closed * below(z_closed) + bell(z_closed))
    days_open = 31 * 3.4 * (z_open * below(z_open) + bell(z_open))
    # Above the open balance point the house shuts, and all above the closed one counts.
    extra = (balance_open - balance_closed) * 31 * below(z_open)
    load_closed = 24 * k_closed * days_closed / 1000
    load_open = 24 * k_closed * (days_open + extra) / 1000
    opened = (13 - 9.3) / (13 - 9)
    load = opened * load_open + (1 - opened) * load_closed
    hours = 24 * 31 * (opened * below(z_open) + (1 - opened) * below(z_closed))
    # 9.3 g/kg is just the indoor air's own moisture, so only people add any.
    latent = 100.7 * hours / 1000
    assert four(flow) == 0.05936
    assert four(k_closed) == 389.7
    assert four(balance_closed) == 19.78
    assert four(balance_open) == 21.09
    assert four(z_closed) == -0.08374
    assert four(z_open) == -0.4671
    assert four(days_closed) == 37.78
    assert four(days_open) == 21.94
    assert four(extra) == 12.94
    assert four(load_closed) == 353.3
    assert four(load_open) == 326.2
    assert opened == pytest.approx(0.925)
    assert four(load) == 328.2
    assert four(hours) == 246.4
    month = cooling(AS_FOUND, MAY)
    assert load == pytest.approx(month.load)
    assert latent == pytest.approx(month.latent, rel=1e-4)


# ---------------------------------------------------------------------------------------------
# 12  The same, as small functions for any month
# ---------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Part:
    """Area m2, both limits and the R in use m2 K/W, and what leaves indoors through it, W/K."""

    area: float
    upper: float | None
    lower: float | None
    resistance: float
    ua: float
    leaving: float


def layered(area, upper, lower, leaving=None, ua=None):
    resistance = (upper + lower) / 2
    ua = area / resistance if ua is None else ua
    return Part(area, upper, lower, resistance, ua, ua if leaving is None else leaving)


def known(area, u_value):
    return Part(area, None, None, 1 / u_value, u_value * area, u_value * area)


@dataclass(frozen=True)
class House:
    k_outdoors: float
    gains: Callable[[int], float]
    volume: float
    leakage: float
    ventilation: float
    recovery: float
    distribution: float
    junction: float
    parts: dict[str, Part]


OPENINGS = {
    "south windows": known(SOUTH_WINDOWS, WINDOW_U),
    "south door": known(DOOR, DOOR_U),
    "north windows": known(NORTH_WINDOWS, WINDOW_U),
    "north door": known(DOOR, DOOR_U),
    "east windows": known(SIDE_WINDOWS, WINDOW_U),
    "west windows": known(SIDE_WINDOWS, WINDOW_U),
}
AS_FOUND = House(
    K_OUTDOORS,
    gains_as_found,
    VOLUME,
    LEAKAGE,
    ventilation=0,
    recovery=0,
    distribution=0.85,
    junction=JUNCTION_UA,
    parts={
        "south wall": layered(SOUTH_WALL, WALL_UPPER, WALL_LOWER),
        "north wall": layered(NORTH_WALL, WALL_UPPER, WALL_LOWER),
        "east wall": layered(SIDE_WALL, WALL_UPPER, WALL_LOWER),
        "west wall": layered(SIDE_WALL, WALL_UPPER, WALL_LOWER),
        # The ceiling answers for all that leaves through the attic, the attic's shell for none.
        "upper ceiling": layered(CEILING, CEILING_UPPER, CEILING_LOWER, leaving=THROUGH_ATTIC),
        "south roof slope": layered(ROOF_SLOPE, ROOF_R, ROOF_R, leaving=0),
        "north roof slope": layered(ROOF_SLOPE, ROOF_R, ROOF_R, leaving=0),
        "east gable": layered(GABLE, GABLE_R, GABLE_R, leaving=0),
        "west gable": layered(GABLE, GABLE_R, GABLE_R, leaving=0),
        **OPENINGS,
    },
)
EXTERIOR = House(
    NEW_K_OUTDOORS,
    gains_exterior,
    NEW_VOLUME,
    NEW_LEAKAGE,
    NEW_VENTILATION,
    RECOVERY,
    distribution=1,  # the ducts run in the attic, which is now inside
    junction=NEW_JUNCTION_UA,
    parts={
        "south wall": layered(SOUTH_WALL, NEW_WALL_UPPER, NEW_WALL_LOWER),
        "north wall": layered(NORTH_WALL, NEW_WALL_UPPER, NEW_WALL_LOWER),
        "east wall": layered(SIDE_WALL, NEW_WALL_UPPER, NEW_WALL_LOWER),
        "west wall": layered(SIDE_WALL, NEW_WALL_UPPER, NEW_WALL_LOWER),
        # Inside on both faces: a U still, but no heat flows.
        "upper ceiling": layered(CEILING, CEILING_UPPER, CEILING_LOWER, ua=0),
        "south roof slope": layered(ROOF_SLOPE, NEW_ROOF_R, NEW_ROOF_R),
        "north roof slope": layered(ROOF_SLOPE, NEW_ROOF_R, NEW_ROOF_R),
        "east gable": layered(GABLE, NEW_GABLE_R, NEW_GABLE_R),
        "west gable": layered(GABLE, NEW_GABLE_R, NEW_GABLE_R),
        **OPENINGS,
    },
)


@pytest.mark.parametrize("house", [AS_FOUND, EXTERIOR])
def test_parts_and_the_junction_make_up_k_outdoors(house):
    leaving = sum(each_part.leaving for each_part in house.parts.values())
    assert leaving + house.junction == pytest.approx(house.k_outdoors)


@dataclass(frozen=True)
class HeatingMonth:
    k_air: float
    balance_point: float
    degree_days: float
    load: float


@dataclass(frozen=True)
class CoolingMonth:
    opened: float
    balance_closed: float
    balance_open: float
    load_closed: float
    load_open: float
    load: float
    hours: float
    latent: float


def heating(house, m):
    flow = infiltration(house.leakage, HEATING_SET_POINT - MEAN[m], WIND[m])
    k_air = AIR_HEAT * (flow + house.ventilation * (1 - house.recovery))
    k_all = house.k_outdoors + k_air
    to_ground = K_GROUND * (HEATING_SET_POINT - GROUND_TEMPERATURE[m])
    balance = HEATING_SET_POINT - (house.gains(m) - to_ground) / k_all
    degree_days = heating_degree_days(balance, m)
    return HeatingMonth(k_air, balance, degree_days, k_all * 24 * degree_days / 1000)


def cooling(house, m):
    flow = infiltration(house.leakage, COOLING_SET_POINT - MEAN[m], WIND[m])
    k_air = AIR_HEAT * (flow + house.ventilation * (1 - house.recovery))
    k_closed = house.k_outdoors + k_air
    k_open = max(k_closed, house.k_outdoors + AIR_HEAT * house.volume * 2 / 3600)
    surplus = house.gains(m) - K_GROUND * (COOLING_SET_POINT - GROUND_TEMPERATURE[m])
    balance_closed = COOLING_SET_POINT - surplus / k_closed
    balance_open = COOLING_SET_POINT - surplus / k_open
    warm_closed = below((MEAN[m] - balance_closed) / SPREAD[m])
    warm_open = below((MEAN[m] - balance_open) / SPREAD[m])
    load_closed = 24 * k_closed * cooling_degree_days(balance_closed, m) / 1000
    extra = (balance_open - balance_closed) * DAYS[m] * warm_open
    load_open = 24 * k_closed * (cooling_degree_days(balance_open, m) + extra) / 1000
    opened = min(max((13 - HUMIDITY_G[m]) / (13 - 9), 0), 1)
    load = opened * load_open + (1 - opened) * load_closed
    hours = 24 * DAYS[m] * (opened * warm_open + (1 - opened) * warm_closed)
    wet = max(0, HUMIDITY_G[m] / 1000 - 0.0093)
    moisture = AIR_DENSITY * 2.5e6 * (flow + house.ventilation) * wet
    people = 20 + 0.22 * FLOOR_AREA + 12 * (BEDROOMS + 1)
    latent = (moisture + people) * hours / 1000
    return CoolingMonth(
        opened, balance_closed, balance_open, load_closed, load_open, load, hours, latent
    )


def test_january_exterior():
    flow = NEW_LEAKAGE / 1000 * math.sqrt(0.000290 * (HEATING_SET_POINT - 4) + 0.000231 * 3.5**2)
    k_air = AIR_HEAT * (flow + NEW_VENTILATION * (1 - 0.7))
    k_all = NEW_K_OUTDOORS + k_air
    to_ground = K_GROUND * (HEATING_SET_POINT - GROUND_TEMPERATURE[JANUARY])
    balance = HEATING_SET_POINT - (gains_exterior(JANUARY) - to_ground) / k_all
    z = (balance - 4) / 5.4
    degree_days = 31 * 5.4 * (z * below(z) + bell(z))
    load = k_all * 24 * degree_days / 1000
    assert four(flow) == 0.03122
    assert four(k_air) == 46.59
    assert four(k_all) == 177.3
    assert four(balance) == 16.41
    assert four(z) == 2.297
    assert four(degree_days) == 385.2
    assert four(load) == 1639.0
    assert load == pytest.approx(heating(EXTERIOR, JANUARY).load)


def test_july_exterior():
    difference = 25.6 - COOLING_SET_POINT
    flow = NEW_LEAKAGE / 1000 * math.sqrt(0.000290 * difference + 0.000231 * 2.8**2)
    k_closed = NEW_K_OUTDOORS + AIR_HEAT * (flow + NEW_VENTILATION * (1 - 0.7))
    surplus = gains_exterior(JULY) - K_GROUND * (COOLING_SET_POINT - GROUND_TEMPERATURE[JULY])
    balance = COOLING_SET_POINT - surplus / k_closed
    z = (25.6 - balance) / 1.8
    load = 24 * k_closed * 31 * 1.8 * (z * below(z) + bell(z)) / 1000
    hours = 24 * 31 * below(z)
    # Recovery is sensible only: all of the ventilation brings its moisture in.
    moisture = AIR_DENSITY * 2.5e6 * (flow + NEW_VENTILATION) * (0.0146 - 0.0093)
    latent = (moisture + 20 + 0.22 * FLOOR_AREA + 12 * (3 + 1)) * hours / 1000
    assert four(flow) == 0.01699
    assert four(k_closed) == 160.6
    assert four(surplus) == 1386.0
    assert four(balance) == 15.26
    assert four(z) == 5.746
    assert four(load) == 1236.0
    assert four(hours) == 744.0
    assert four(moisture) == 700.0
    assert four(latent) == 595.7
    assert load == pytest.approx(cooling(EXTERIOR, JULY).load)
    assert latent == pytest.approx(cooling(EXTERIOR, JULY).latent)


# ---------------------------------------------------------------------------------------------
# 13  Twelve months and the year
# ---------------------------------------------------------------------------------------------


def heating_year(house):
    return sum(heating(house, m).load for m in MONTHS)


def cooling_year(house):
    return sum(cooling(house, m).load for m in MONTHS)


def latent_year(house):
    return sum(cooling(house, m).latent for m in MONTHS)


def air_year(house):
    return by_days([heating(house, m).k_air for m in MONTHS])


def test_months_as_found():
    assert [round(AS_FOUND.gains(m)) for m in MONTHS] == row(
        "1608 1770 1910 2025 2050 2089 2037 1978 1925 1900 1691 1558"
    )
    assert [round(heating(AS_FOUND, m).balance_point, 2) for m in MONTHS] == row(
        "18.64 18.37 17.9 17.24 16.56 16.01 15.86 15.84 15.96 16.53 17.64 18.44"
    )
    assert [round(heating(AS_FOUND, m).degree_days, 1) for m in MONTHS] == row(
        "454.1 346.6 248.7 90.8 11.3 0.0 0.0 0.0 1.1 67.1 231.9 401.3"
    )
    assert [round(heating(AS_FOUND, m).load) for m in MONTHS] == row(
        "4576 3479 2465 873 103 0 0 0 9 624 2252 3996"
    )
    assert [round(cooling(AS_FOUND, m).load) for m in MONTHS] == row(
        "0 0 7 52 328 1278 1870 1693 736 76 4 0"
    )
    assert [round(cooling(AS_FOUND, m).latent) for m in MONTHS] == row(
        "0 0 1 5 25 365 607 534 207 6 0 0"
    )


def test_months_exterior():
    assert [round(EXTERIOR.gains(m)) for m in MONTHS] == row(
        "1406 1484 1536 1566 1561 1573 1551 1534 1531 1549 1451 1380"
    )
    assert [round(heating(EXTERIOR, m).balance_point, 2) for m in MONTHS] == row(
        "16.41 16.23 15.67 14.68 13.46 12.36 11.8 11.53 11.59 12.51 14.32 15.8"
    )
    assert [round(heating(EXTERIOR, m).degree_days, 1) for m in MONTHS] == row(
        "385.2 287.6 185.8 45.7 1.6 0.0 0.0 0.0 0.0 16.3 142.4 320.5"
    )
    assert [round(heating(EXTERIOR, m).load) for m in MONTHS] == row(
        "1639 1220 779 187 6 0 0 0 0 65 587 1350"
    )
    assert [round(cooling(EXTERIOR, m).load) for m in MONTHS] == row(
        "0 0 5 35 234 910 1236 1188 668 69 4 0"
    )
    assert [round(cooling(EXTERIOR, m).latent) for m in MONTHS] == row(
        "0 0 1 4 24 376 596 544 230 6 0 0"
    )


def test_years():
    assert four(air_year(AS_FOUND)) == 76.22
    assert four(heating_year(AS_FOUND)) == 18380.0
    assert four(cooling_year(AS_FOUND)) == 6045.0
    assert four(latent_year(AS_FOUND)) == 1750.0
    assert four(air_year(EXTERIOR)) == 37.92
    assert four(heating_year(EXTERIOR)) == 5832.0
    assert four(cooling_year(EXTERIOR)) == 4348.0
    assert four(latent_year(EXTERIOR)) == 1781.0


# ---------------------------------------------------------------------------------------------
# 14  Fuel, cost, carbon
# ---------------------------------------------------------------------------------------------


def gas(house):
    return heating_year(house) / (0.82 * house.distribution)


def electricity(house):
    return (cooling_year(house) + latent_year(house)) / (3.4 * house.distribution)


def gas_cost(house):
    return gas(house) * 1.35 / THERM_KWH


def electricity_cost(house):
    return electricity(house) * 0.13


def carbon(house):
    return gas(house) * 0.181 + electricity(house) * 0.39


def test_fuel_cost_and_carbon():
    assert four(gas(AS_FOUND)) == 26370.0
    assert four(electricity(AS_FOUND)) == 2697.0
    assert four(gas_cost(AS_FOUND)) == 1215.0
    assert four(electricity_cost(AS_FOUND)) == 350.7
    assert four(carbon(AS_FOUND)) == 5825.0
    assert four(gas(EXTERIOR)) == 7112.0
    assert four(electricity(EXTERIOR)) == 1803.0
    assert four(gas_cost(EXTERIOR)) == 327.6
    assert four(electricity_cost(EXTERIOR)) == 234.4
    assert four(carbon(EXTERIOR)) == 1990.0


# ---------------------------------------------------------------------------------------------
# 15  What each part costs in heat: the month's load times its share of the gross loss
# ---------------------------------------------------------------------------------------------


def heating_shares(house):
    """kWh a year by name of the part, and for the junction and the outdoor air."""
    leaving = {name: each_part.leaving for name, each_part in house.parts.items()}
    leaving["wall to slab"] = house.junction
    shares = dict.fromkeys([*leaving, "slab", "outdoor air"], 0.0)
    for m in MONTHS:
        month = heating(house, m)
        # A month warmer than indoors loses nothing outwards.
        difference = max(HEATING_SET_POINT - MEAN[m], 0)
        losses = {name: conductance * difference for name, conductance in leaving.items()}
        losses["slab"] = K_GROUND * (HEATING_SET_POINT - GROUND_TEMPERATURE[m])
        losses["outdoor air"] = month.k_air * difference
        gross = sum(losses.values())
        for name, loss in losses.items():
            shares[name] += month.load * loss / gross
    return shares


def test_heating_shares():
    found = heating_shares(AS_FOUND)
    assert four(found["south wall"]) == 2311.0
    assert four(found["south windows"]) == 827.2
    assert four(found["south door"]) == 214.9
    assert four(found["upper ceiling"]) == 1521.0
    assert four(found["slab"]) == 1540.0
    assert four(found["wall to slab"]) == 212.3
    assert four(found["outdoor air"]) == 3803.0
    assert sum(found.values()) == pytest.approx(heating_year(AS_FOUND))
    new = heating_shares(EXTERIOR)
    assert four(new["south wall"]) == 325.6
    assert four(new["south windows"]) == 558.6
    assert four(new["south door"]) == 145.1
    assert four(new["south roof slope"]) == 208.1
    assert four(new["east gable"]) == 86.26
    assert four(new["slab"]) == 1006.0
    assert four(new["wall to slab"]) == 47.78
    assert four(new["outdoor air"]) == 1231.0
    assert sum(new.values()) == pytest.approx(heating_year(EXTERIOR))


# ---------------------------------------------------------------------------------------------
# The program against the page
# ---------------------------------------------------------------------------------------------

EXACT = 0.0005  # areas, resistances and conductances
CLOSE = 0.005  # everything that passes through the weather
A_TRACE = 0.05  # kWh, K d or h in a month: next to nothing


@pytest.fixture(scope="module")
def comparison():
    return read_project(EXAMPLE.read_text(encoding="utf-8")).compare()


@pytest.fixture(params=["as found", "Exterior continuous"])
def both(request, comparison):
    """The house by hand and by the program."""
    if request.param == "as found":
        return AS_FOUND, comparison.as_found
    names = [strategy.name for strategy in comparison.strategies]
    return EXTERIOR, comparison.results[names.index(request.param)]


def monthly(values):
    return [float(value) for value in values]


def test_program_conductances(both):
    house, result = both
    assert float(result.to_outdoors) == pytest.approx(house.k_outdoors, rel=EXACT)
    assert float(result.to_ground) == pytest.approx(K_GROUND, rel=EXACT)
    assert float(result.air) == pytest.approx(air_year(house), rel=CLOSE)


def test_program_parts(both):
    house, result = both
    parts = {found.component.name: found for found in result.components}
    assert set(parts) == {*house.parts, "slab"}
    for name, by_hand in house.parts.items():
        found = parts[name]
        assert float(found.component.area) == pytest.approx(by_hand.area, rel=EXACT), name
        assert float(found.resistance) == pytest.approx(by_hand.resistance, rel=EXACT), name
        assert float(found.u_value) == pytest.approx(1 / by_hand.resistance, rel=EXACT), name
        assert float(found.conductance) == pytest.approx(by_hand.ua, rel=EXACT), name
        if by_hand.upper is None:
            assert found.limits is None, name
        else:
            assert float(found.limits.upper) == pytest.approx(by_hand.upper, rel=EXACT), name
            assert float(found.limits.lower) == pytest.approx(by_hand.lower, rel=EXACT), name
    assert float(parts["slab"].u_value) == pytest.approx(SLAB_U, rel=EXACT)
    assert float(parts["slab"].resistance) == pytest.approx(1 / SLAB_U, rel=EXACT)
    assert float(parts["slab"].conductance) == pytest.approx(K_GROUND, rel=EXACT)


def test_program_heating(both):
    house, result = both
    by_hand = [heating(house, m) for m in MONTHS]
    assert monthly(result.gains) == pytest.approx([house.gains(m) for m in MONTHS], rel=CLOSE)
    assert monthly(result.ground_temperature) == pytest.approx(GROUND_TEMPERATURE, rel=EXACT)
    # The balance point as its distance below the set point, which is what is computed.
    assert [HEATING_SET_POINT - t for t in monthly(result.heating.balance_point)] == pytest.approx(
        [HEATING_SET_POINT - month.balance_point for month in by_hand], rel=CLOSE
    )
    assert monthly(result.heating.degree_days) == pytest.approx(
        [month.degree_days for month in by_hand], rel=CLOSE, abs=A_TRACE
    )
    assert monthly(result.heating.load_kwh) == pytest.approx(
        [month.load for month in by_hand], rel=CLOSE, abs=A_TRACE
    )
    assert result.heating_load_kwh == pytest.approx(heating_year(house), rel=CLOSE)


def test_program_cooling(both):
    house, result = both
    by_hand = [cooling(house, m) for m in MONTHS]
    assert [COOLING_SET_POINT - t for t in monthly(result.cooling.balance_point)] == pytest.approx(
        [COOLING_SET_POINT - month.balance_closed for month in by_hand], rel=CLOSE
    )
    assert monthly(result.cooling.load_kwh) == pytest.approx(
        [month.load for month in by_hand], rel=CLOSE, abs=A_TRACE
    )
    assert monthly(result.cooling.hours) == pytest.approx(
        [month.hours for month in by_hand], rel=CLOSE, abs=A_TRACE
    )
    assert monthly(result.cooling.latent_kwh) == pytest.approx(
        [month.latent for month in by_hand], rel=CLOSE, abs=A_TRACE
    )
    assert result.cooling_load_kwh == pytest.approx(cooling_year(house), rel=CLOSE)
    assert result.latent_load_kwh == pytest.approx(latent_year(house), rel=CLOSE)


def test_program_fuel_cost_and_carbon(both):
    house, result = both
    warm, cool = result.fuels
    assert (warm.fuel, cool.fuel) == ("natural gas", "electricity")
    assert warm.energy_kwh == pytest.approx(gas(house), rel=CLOSE)
    assert cool.energy_kwh == pytest.approx(electricity(house), rel=CLOSE)
    assert warm.cost == pytest.approx(gas_cost(house), rel=CLOSE)
    assert cool.cost == pytest.approx(electricity_cost(house), rel=CLOSE)
    assert result.annual_cost == pytest.approx(gas_cost(house) + electricity_cost(house), rel=CLOSE)
    assert result.carbon == pytest.approx(carbon(house), rel=CLOSE)


def test_program_heating_shares(both):
    house, result = both
    by_hand = heating_shares(house)
    by_program = {found.component.name: found.heating_share_kwh for found in result.components}
    by_program |= {junction.name: junction.heating_share_kwh for junction in result.junctions}
    by_program["outdoor air"] = result.air_heating_share_kwh
    assert {name: float(share) for name, share in by_program.items()} == pytest.approx(
        by_hand, rel=CLOSE, abs=A_TRACE
    )
