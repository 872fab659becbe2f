"""Films, air layers and the combined method against ISO 6946 and worked examples.

Resistances in m2 K/W, conductivities in W/(m K), lengths in m. Where no printed example exists the
expected figure stands in the table as plain arithmetic.
"""

import pytest

from server.core.assembly import (
    AirLayer,
    FramedLayer,
    ResistanceLayer,
    SolidLayer,
    Ventilation,
    total_resistance,
)
from server.core.films import ISO_6946, HeatFlow, unventilated_air_layer
from server.core.materials import Material

UP, LEVEL, DOWN = HeatFlow.UP, HeatFlow.LEVEL, HeatFlow.DOWN

BRICK = Material("brick", 0.77)
BLOCK = Material("block", 0.11)
MORTAR = Material("mortar", 0.88)
TIMBER = Material("timber", 0.13)
WOOL = Material("mineral wool", 0.038)
FILL = Material("fill", 0.04)
PLASTERBOARD = Material("plasterboard", 0.25)

BY_HAND = "arithmetic in the table"

# --- Films -----------------------------------------------------------------------------------

TABLE_7 = "ISO 6946:2017 Table 7 (2007 Table 1), published in BR 443"

FILMS = [
    ("inside, heat flow up", ISO_6946.inside(UP), 0.10, TABLE_7),
    ("inside, heat flow level", ISO_6946.inside(LEVEL), 0.13, TABLE_7),
    ("inside, heat flow down", ISO_6946.inside(DOWN), 0.17, TABLE_7),
    ("outside", ISO_6946.outside, 0.04, TABLE_7),
    ("outside, wind 4 m/s", ISO_6946.outside, 0.04, "ISO 6946 Rse by wind speed (memory)"),
]

STEFAN_BOLTZMANN = 5.670374e-8  # W/(m2 K4)


def radiation(temperature, emissivity):
    """Radiative coefficient, W/(m2 K); temperature in K."""
    return emissivity * 4 * STEFAN_BOLTZMANN * temperature**3


# Film, convection, mean temperature: R = 1/(hc + hr). ISO 6946 Annex C (2007 Annex A), memory.
FILM_FORMULA = [
    (ISO_6946.inside(UP), 5.0, 293.15),
    (ISO_6946.inside(LEVEL), 2.5, 293.15),
    (ISO_6946.inside(DOWN), 0.7, 293.15),
    (ISO_6946.outside, 4 + 4 * 4.0, 283.15),
]


@pytest.mark.parametrize(("name", "ours", "expected", "source"), FILMS)
def test_film(name, ours, expected, source):
    assert ours == expected, f"{name}: {source}"


@pytest.mark.parametrize(("film", "convection", "temperature"), FILM_FORMULA)
def test_film_rounds_its_formula(film, convection, temperature):
    formula = 1 / (convection + radiation(temperature, emissivity=0.9))
    assert film == pytest.approx(formula, abs=0.0015)


# --- Unventilated air layers -----------------------------------------------------------------

# ISO 6946:2017 Table 8 (2007 Table 2), memory. Thickness mm; up, level, down.
AIR_LAYERS = [
    (0, 0.00, 0.00, 0.00),
    (5, 0.11, 0.11, 0.11),
    (7, 0.13, 0.13, 0.13),
    (10, 0.15, 0.15, 0.15),
    (15, 0.16, 0.17, 0.17),
    (25, 0.16, 0.18, 0.19),
    (50, 0.16, 0.18, 0.21),
    (100, 0.16, 0.18, 0.22),
    (300, 0.16, 0.18, 0.23),
]
AIR_LAYER_CELLS = [
    (row[0], flow, expected)
    for row in AIR_LAYERS
    for flow, expected in zip((UP, LEVEL, DOWN), row[1:], strict=True)
]

# Thickness mm, direction, R: half-way between two rows of the table.
BETWEEN_ROWS = [
    (6.0, LEVEL, 0.12),
    (20.0, DOWN, 0.18),
    (75.0, DOWN, 0.215),
    (500.0, DOWN, 0.23),
]


@pytest.mark.parametrize(("millimetres", "flow", "expected"), AIR_LAYER_CELLS)
def test_air_layer_is_the_table(millimetres, flow, expected):
    assert unventilated_air_layer(millimetres / 1000, flow) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("millimetres", "flow"), [(mm, flow) for mm, flow, _ in AIR_LAYER_CELLS if mm > 0]
)
def test_air_layer_agrees_with_the_annex(millimetres, flow):
    """R = 1/(ha + hr), ordinary surfaces (emissivity 0.9 on both sides), 10 deg C (memory)."""
    thickness = millimetres / 1000
    still = 0.025 / thickness
    convection = {
        UP: max(1.95, still),
        LEVEL: max(1.25, still),
        DOWN: max(0.12 * thickness**-0.44, still),
    }[flow]
    between = 1 / (1 / 0.9 + 1 / 0.9 - 1)
    formula = 1 / (convection + radiation(283.15, between))
    assert unventilated_air_layer(thickness, flow) == pytest.approx(formula, abs=0.005)


@pytest.mark.parametrize(("millimetres", "flow", "expected"), BETWEEN_ROWS)
def test_air_layer_between_rows_is_linear(millimetres, flow, expected):
    assert unventilated_air_layer(millimetres / 1000, flow) == pytest.approx(expected, abs=1e-9)


# --- The combined method, worked example -----------------------------------------------------

# Cavity wall, lightweight inner leaf, insulated dry lining. BRE report 78129 (Doran and Kosmina,
# 1999) section 3; UK Approved Document L1 (2002) Appendix B. Inputs from memory, results computed.
DRY_LINING = "BRE report 78129 section 3 (inputs from memory, results computed)"


def dry_lined_wall(timber_share, mortar_share):
    wall = [
        SolidLayer(PLASTERBOARD, 0.0125),
        FramedLayer(TIMBER, timber_share, 0.089, fill=WOOL),
        FramedLayer(MORTAR, mortar_share, 0.100, fill=BLOCK),
        ResistanceLayer(0.18),
        SolidLayer(BRICK, 0.102),
    ]
    return total_resistance(wall, LEVEL, ISO_6946.inside(LEVEL), ISO_6946.outside)


# Timber in the way, mortar in the way, R of that path, share of the area.
PATHS = [
    (0.0, 0.0, 3.783, 0.8229),
    (1.0, 0.0, 2.126, 0.1101),
    (0.0, 1.0, 2.988, 0.0591),
    (1.0, 1.0, 1.331, 0.0079),
]

DRY_LINED = dry_lined_wall(0.118, 0.067)
COMBINED = [
    ("upper limit", DRY_LINED.upper, 3.390),
    ("lower limit", DRY_LINED.lower, 2.973),
    ("mean", DRY_LINED.mean, 3.181),
    ("U", 1 / DRY_LINED.mean, 0.3143),
]


@pytest.mark.parametrize(("timber", "mortar", "expected", "_share"), PATHS)
def test_dry_lined_path(timber, mortar, expected, _share):
    path = dry_lined_wall(timber, mortar)
    assert path.upper == pytest.approx(expected, abs=0.001), DRY_LINING
    assert path.lower == pytest.approx(path.upper, rel=1e-12)


@pytest.mark.parametrize(("name", "ours", "expected"), COMBINED)
def test_dry_lined_wall(name, ours, expected):
    assert ours == pytest.approx(expected, abs=0.001), f"{name}: {DRY_LINING}"


def test_dry_lined_upper_limit_is_the_sum_over_the_paths():
    assert sum(share for *_, share in PATHS) == pytest.approx(1, abs=1e-4)
    conductance = sum(share / resistance for _, _, resistance, share in PATHS)
    assert DRY_LINED.upper == pytest.approx(1 / conductance, abs=0.001)


def test_dry_lined_relative_error():
    error = (DRY_LINED.upper - DRY_LINED.lower) / (2 * DRY_LINED.mean)
    assert error == pytest.approx(0.066, abs=0.0005), DRY_LINING


@pytest.mark.parametrize("timber", [0.0, 0.05, 0.118, 0.5, 1.0])
@pytest.mark.parametrize("mortar", [0.0, 0.067, 0.5, 1.0])
def test_upper_limit_is_never_below_the_lower(timber, mortar):
    wall = dry_lined_wall(timber, mortar)
    assert wall.upper >= wall.lower - 1e-12


def test_limits_are_equal_where_nothing_is_bridged():
    layers = [SolidLayer(PLASTERBOARD, 0.0125), SolidLayer(WOOL, 0.1), SolidLayer(BRICK, 0.102)]
    result = total_resistance(layers, LEVEL, 0.13, 0.04)
    # 0.13 + 0.0125/0.25 + 0.1/0.038 + 0.102/0.77 + 0.04 = 0.13 + 0.05 + 2.63158 + 0.13247 + 0.04
    assert result.upper == result.lower == pytest.approx(2.98405, abs=1e-5)


# --- Framed layers by hand -------------------------------------------------------------------

BOARD = SolidLayer(PLASTERBOARD, 0.0125)  # R 0.05


def attic_floor(fill_thickness):
    """Board and joists 200 mm deep, 10 % of the area, under the air of an attic."""
    joists = FramedLayer(TIMBER, 0.10, 0.200, fill=FILL, fill_thickness=fill_thickness, open=True)
    return total_resistance([BOARD, joists], UP, 0.10, 0.10)


def stud_wall(**facts):
    """Board and studs 89 mm deep, 25 % of the area."""
    return total_resistance([BOARD, FramedLayer(TIMBER, 0.25, 0.089, **facts)], LEVEL, 0.13, 0.04)


def two_framings(aligned, outer_share=0.10):
    """Board, studs 90 mm (10 %), and outside of them 50 mm more, in line or crossing."""
    layers = [
        BOARD,
        FramedLayer(TIMBER, 0.10, 0.090, fill=FILL),
        FramedLayer(TIMBER, outer_share, 0.050, fill=FILL, aligned=aligned),
    ]
    return total_resistance(layers, LEVEL, 0.13, 0.04)


# All lines: films and board first. Attic floor 0.10 + 0.05 + 0.10 = 0.25; walls 0.13 + 0.05 + 0.04
# = 0.22. Timber: 100 mm 0.76923, 200 mm 1.53846, 90 mm 0.69231, 50 mm 0.38462, 89 mm 0.68462.
# Fill: 100 mm 2.5, 200 mm 5.0, 90 mm 2.25, 50 mm 1.25, 89 mm 2.225. Air layer 89 mm level 0.18.
FRAMED = [
    # Fill 100 mm between joists of 200 mm: the joists count to the height of the fill.
    (
        "fill below the framing",
        attic_floor(0.100),
        1 / (0.10 / (0.25 + 0.76923) + 0.90 / (0.25 + 2.5)),
        0.25 + 1 / (0.10 / 0.76923 + 0.90 / 2.5),
    ),
    (
        "fill level with the framing",
        attic_floor(0.200),
        1 / (0.10 / (0.25 + 1.53846) + 0.90 / (0.25 + 5.0)),
        0.25 + 1 / (0.10 / 1.53846 + 0.90 / 5.0),
    ),
    # Fill 300 mm: the upper 100 mm, R 2.5, lies over joists and fill alike.
    (
        "fill above the framing",
        attic_floor(0.300),
        1 / (0.10 / (0.25 + 1.53846 + 2.5) + 0.90 / (0.25 + 5.0 + 2.5)),
        0.25 + 2.5 + 1 / (0.10 / 1.53846 + 0.90 / 5.0),
    ),
    # Crossing: four ways, 1 %, 9 %, 9 % and 81 % of the area.
    (
        "crossing framed layers",
        two_framings(aligned=False),
        1
        / (
            0.01 / (0.22 + 0.69231 + 0.38462)
            + 0.09 / (0.22 + 0.69231 + 1.25)
            + 0.09 / (0.22 + 2.25 + 0.38462)
            + 0.81 / (0.22 + 2.25 + 1.25)
        ),
        0.22 + 1 / (0.10 / 0.69231 + 0.90 / 2.25) + 1 / (0.10 / 0.38462 + 0.90 / 1.25),
    ),
    # In line: two ways, 10 % all timber and 90 % all fill.
    (
        "aligned framed layers",
        two_framings(aligned=True),
        1 / (0.10 / (0.22 + 0.69231 + 0.38462) + 0.90 / (0.22 + 2.25 + 1.25)),
        0.22 + 1 / (0.10 / 0.69231 + 0.90 / 2.25) + 1 / (0.10 / 0.38462 + 0.90 / 1.25),
    ),
    # In line, the outer member 4 % wide against 10 %: 4 % both, 6 % inner only, 90 % neither.
    (
        "aligned framed layers of unlike width",
        two_framings(aligned=True, outer_share=0.04),
        1
        / (
            0.04 / (0.22 + 0.69231 + 0.38462)
            + 0.06 / (0.22 + 0.69231 + 1.25)
            + 0.90 / (0.22 + 2.25 + 1.25)
        ),
        0.22 + 1 / (0.10 / 0.69231 + 0.90 / 2.25) + 1 / (0.04 / 0.38462 + 0.96 / 1.25),
    ),
    # 5 % of the cavity missed: 25 % stud, 0.75 x 0.95 = 71.25 % fill, 0.75 x 0.05 = 3.75 % air.
    (
        "empty share of the cavity",
        stud_wall(fill=FILL, empty_share=0.05),
        1 / (0.25 / (0.22 + 0.68462) + 0.7125 / (0.22 + 2.225) + 0.0375 / (0.22 + 0.18)),
        0.22 + 1 / (0.25 / 0.68462 + 0.7125 / 2.225 + 0.0375 / 0.18),
    ),
    # Fill 50 mm in a bay of 89 mm: 1.25 and a level air layer of 39 mm, 0.18.
    (
        "fill thinner than a closed bay",
        stud_wall(fill=FILL, fill_thickness=0.050),
        1 / (0.25 / (0.22 + 0.68462) + 0.75 / (0.22 + 1.25 + 0.18)),
        0.22 + 1 / (0.25 / 0.68462 + 0.75 / (1.25 + 0.18)),
    ),
    (
        "empty bay",
        stud_wall(),
        1 / (0.25 / (0.22 + 0.68462) + 0.75 / (0.22 + 0.18)),
        0.22 + 1 / (0.25 / 0.68462 + 0.75 / 0.18),
    ),
    # Common practice: a bay open at top and bottom keeps half the air layer, 0.09.
    (
        "balloon bay (common practice)",
        stud_wall(open_ends=True),
        1 / (0.25 / (0.22 + 0.68462) + 0.75 / (0.22 + 0.09)),
        0.22 + 1 / (0.25 / 0.68462 + 0.75 / 0.09),
    ),
]


@pytest.mark.parametrize(("name", "ours", "upper", "lower"), FRAMED)
def test_framed_layer_by_hand(name, ours, upper, lower):
    assert ours.upper == pytest.approx(upper, abs=1e-4), f"{name}: {BY_HAND}"
    assert ours.lower == pytest.approx(lower, abs=1e-4), f"{name}: {BY_HAND}"


def test_framing_above_the_fill_adds_nothing():
    """Joists of 100 mm, filled to the top, do as well as those that stand 100 mm out of it."""
    shallow = FramedLayer(TIMBER, 0.10, 0.100, fill=FILL, open=True)
    assert attic_floor(0.100).mean == pytest.approx(
        total_resistance([BOARD, shallow], UP, 0.10, 0.10).mean, rel=1e-12
    )


# --- Ventilated air layers -------------------------------------------------------------------


def veneer_wall(ventilation, opening_area=1000e-6):
    """Board 0.05, insulation 2.0, air layer 25 mm, brick 0.102/0.77 = 0.13247."""
    layers = [
        BOARD,
        ResistanceLayer(2.0),
        AirLayer(ventilation, 0.025, opening_area),
        SolidLayer(BRICK, 0.102),
    ]
    return total_resistance(layers, LEVEL, 0.13, 0.04).mean


# ISO 6946:2017 6.9. Unventilated: Ru = 0.13 + 0.05 + 2.0 + 0.18 + 0.13247 + 0.04 = 2.53247.
# Well ventilated: the layer and the brick drop out and the surface behind takes the inside film,
# Rv = 0.13 + 0.05 + 2.0 + 0.13 = 2.31.
VENTILATED = [
    ("unventilated", veneer_wall(Ventilation.UNVENTILATED), 2.53247),
    ("well ventilated", veneer_wall(Ventilation.WELL), 2.31),
    (
        "slightly, 1000 mm2 per m",
        veneer_wall(Ventilation.SLIGHTLY),
        (500 * 2.53247 + 500 * 2.31) / 1000,
    ),
    (
        "slightly, 700 mm2 per m",
        veneer_wall(Ventilation.SLIGHTLY, 700e-6),
        (800 * 2.53247 + 200 * 2.31) / 1000,
    ),
    (
        "slightly, 1400 mm2 per m",
        veneer_wall(Ventilation.SLIGHTLY, 1400e-6),
        (100 * 2.53247 + 900 * 2.31) / 1000,
    ),
    ("slightly, 500 mm2 per m", veneer_wall(Ventilation.SLIGHTLY, 500e-6), 2.53247),
    ("slightly, 1500 mm2 per m", veneer_wall(Ventilation.SLIGHTLY, 1500e-6), 2.31),
]


@pytest.mark.parametrize(("name", "ours", "expected"), VENTILATED)
def test_ventilated_layer_by_hand(name, ours, expected):
    assert ours == pytest.approx(expected, abs=1e-4), f"{name}: ISO 6946:2017 6.9, {BY_HAND}"
