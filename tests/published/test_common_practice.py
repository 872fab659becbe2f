"""What the trade knows without a book: framing beside filled bays, and labels against walls.

Common practice throughout, no publication. R in h ft2 F/Btu, lengths in inches. The resistance of
a material per inch, and softwood beside a filled bay, are in the tests of the material list.
"""

import csv
from pathlib import Path

import pytest

from server.core.assembly import Assembly, FramedLayer, SolidLayer, total_resistance
from server.core.films import ASHRAE_WINTER, HeatFlow
from server.core.materials import Material
from server.core.network import INDOORS, Edge, balance

SEED_DATA = Path(__file__).resolve().parents[2] / "seed_data"
R_UNIT = 0.1761102  # m2 K/W in one h ft2 F/Btu
INCH = 0.0254  # m
STUD_DEPTH = 3.5 * INCH
AT_16_IN, AT_24_IN = 0.25, 0.22  # framing of a whole wall, plates and headers counted

with (SEED_DATA / "materials.csv").open(newline="", encoding="utf-8") as lines:
    MATERIALS = {
        row["name"]: Material(row["name"], float(row["conductivity_w_per_mk"]))
        for row in csv.DictReader(lines)
    }

STUDS = ["softwood", "spruce-pine-fir framing"]
BAY_FILLS = [
    "dense-pack cellulose",
    "cellulose loose fill",
    "glass fibre batt",
    "cotton batt",
    "wood-fibre batt",
    "hemp batt",
]


def r_of(name, depth=STUD_DEPTH):
    return depth / MATERIALS[name].conductivity / R_UNIT


def wall(bay, share=AT_16_IN, outside=(), stud="spruce-pine-fir framing"):
    """Siding, sheathing, studs with a bay of some resistance, wallboard; R with films."""
    layers = [
        SolidLayer(MATERIALS["gypsum board"], 0.5 * INCH),
        FramedLayer(
            MATERIALS[stud],
            share,
            STUD_DEPTH,
            fill=Material("batt", STUD_DEPTH / (bay * R_UNIT)),
            label_resistance=bay * R_UNIT,
        ),
        SolidLayer(MATERIALS["plywood"], 0.5 * INCH),
        *outside,
        SolidLayer(MATERIALS["wood lap siding"], 0.75 * INCH),
    ]
    result = total_resistance(
        Assembly("wall", tuple(layers)).layers,
        HeatFlow.LEVEL,
        ASHRAE_WINTER.inside(HeatFlow.LEVEL),
        ASHRAE_WINTER.outside,
    )
    return result.mean / R_UNIT, result.upper / R_UNIT


# --- A stud beside a filled bay -----------------------------------------------------------------


@pytest.mark.parametrize("stud", STUDS)
def test_stud_is_a_third_of_the_bay_beside_it(stud):
    assert 3.5 <= r_of(stud) <= 4.5


@pytest.mark.parametrize("fill", BAY_FILLS)
def test_filled_bay(fill):
    assert 12 <= r_of(fill) <= 14


@pytest.mark.parametrize("fill", BAY_FILLS)
@pytest.mark.parametrize("stud", STUDS)
def test_stud_passes_three_times_the_heat_of_the_bay(stud, fill):
    assert 2.6 <= r_of(fill) / r_of(stud) <= 4.0


# --- A label is not a wall ----------------------------------------------------------------------

# On centre, framing share, label of the bay.
NOMINAL = [("16 in", AT_16_IN, 13.0), ("24 in", AT_24_IN, 13.0), ("16 in", AT_16_IN, 15.0)]


@pytest.mark.parametrize(("spacing", "share", "label"), NOMINAL)
def test_framed_layer_falls_far_short_of_its_label(spacing, share, label):
    """R-13 bays with studs make a layer of about R-8 1/2 to R-9 1/2: a third is gone."""
    bare, _ = wall(label, share)
    rest = 0.68 + r_of("gypsum board", 0.5 * INCH) + r_of("plywood", 0.5 * INCH)
    rest += r_of("wood lap siding", 0.75 * INCH) + 0.17
    assert 0.60 * label < bare - rest < 0.75 * label, spacing


def test_nominal_r13_wall_is_well_under_13():
    """Even with films, wallboard, sheathing and siding, about R-3 of them, counted in."""
    mean, parallel = wall(13.0)
    assert 10.5 < mean < 12
    assert 10.5 < parallel < 12.25


def test_label_of_the_wall_is_still_what_the_package_says():
    layer = FramedLayer(
        MATERIALS["softwood"],
        AT_16_IN,
        STUD_DEPTH,
        fill=MATERIALS["glass fibre batt"],
        label_resistance=13 * R_UNIT,
    )
    assert Assembly("wall", (layer,)).label_resistance / R_UNIT == pytest.approx(13)


# --- A continuous layer covers the framing ------------------------------------------------------


def test_studs_show_until_a_continuous_layer_covers_them():
    """On an infrared picture: heat through a stud over heat through the bay beside it."""
    board = SolidLayer(MATERIALS["rigid mineral wool board"], 3 * INCH)
    bare = wall(13.0, share=0.0)[1] / wall(13.0, share=1.0)[1]
    covered = wall(13.0, 0.0, [board])[1] / wall(13.0, 1.0, [board])[1]
    assert bare > 2
    assert covered < 1.5


def test_continuous_r12_gives_all_of_r12_and_more():
    """Over framing it adds its whole R, where 3 in more between studs would add two thirds."""
    board = SolidLayer(MATERIALS["rigid mineral wool board"], 3 * INCH)
    added = wall(13.0, outside=[board])[0] - wall(13.0)[0]
    assert 12 <= added <= 13.5


# --- Averages -----------------------------------------------------------------------------------

# Shares of the area with their R; R by averaging U; R by averaging R (wrong).
AVERAGES = [
    # 0.5/4 + 0.5/20 = 0.15
    ([(0.5, 4.0), (0.5, 20.0)], 6.667, 12.0),
    # 0.9/38 + 0.1/1 = 0.12368: a hatch without insulation in a tenth of a ceiling
    ([(0.9, 38.0), (0.1, 1.0)], 8.085, 34.3),
    # 0.75/13 + 0.25/4.375 = 0.11484: bay and stud
    ([(0.75, 13.0), (0.25, 4.375)], 8.708, 10.844),
]


@pytest.mark.parametrize(("areas", "by_conductance", "by_resistance"), AVERAGES)
def test_conductances_are_averaged_not_resistances(areas, by_conductance, by_resistance):
    edges = [Edge(INDOORS, "outdoors", share / (r_value * R_UNIT)) for share, r_value in areas]
    total = balance(edges, [], "outdoors", "ground").to_outdoors
    assert 1 / total / R_UNIT == pytest.approx(by_conductance, abs=0.001)
    wrong = sum(share * r_value for share, r_value in areas)
    assert wrong == pytest.approx(by_resistance, abs=0.001)
    assert wrong > 1.2 * by_conductance
