"""IRC 2021 Tables R702.7(2), (3) and (4), from memory: written here a second time by hand."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.retarder_by_zone import RULE
from tests.core.findings.cases import GYPSUM, findings, the_one
from tests.core.findings.walls import (
    BATT,
    FILM,
    FOIL_FOAM,
    GAP,
    KRAFT,
    STRAND,
    wall,
)
from tests.recipes.houses import BRICK, SIDING, bays, solid

# zone, 2x4, 2x6: least R of continuous insulation with painted gypsum board inside
CLASS_III = [
    ("4C", 2.5, 3.75),
    ("5A", 5.0, 7.5),
    ("6A", 7.5, 11.25),
    ("7", 10.0, 15.0),
    ("8", 12.5, 20.0),
]


FILL = {"wall": {"fill": "mineral wool batt"}}


def with_board(resistance, depth, inside=(GYPSUM,)):
    """A wall whose outer board has a label resistance; R-4 an inch exactly."""
    own = {"board of R-4": {"conductivity": "0.0360569775 W/(m*K)", "group": "rigid-natural"}}
    own["board of R-4"]["vapour_resistance_factor"] = 1
    layers = [*inside, bays("air", depth), STRAND]
    layers.append(solid("board of R-4", f"{resistance / 4.0:.4f} in"))
    return [wall([*layers, SIDING])], own


@pytest.mark.parametrize(("zone", "over_2x4", "over_2x6"), CLASS_III)
@pytest.mark.parametrize("deep", [False, True])
def test_each_row_of_the_table(zone, over_2x4, over_2x6, deep):
    needed = over_2x6 if deep else over_2x4
    depth = "5 1/2 in" if deep else "3 1/2 in"
    parts, own = with_board(needed + 0.01, depth)
    found = the_one(RULE, parts, FILL, materials=own, zone=zone)
    assert found.outcome == "enough outside"
    assert found.measured.limit.value / 0.1761102 == pytest.approx(needed, rel=1e-4)
    parts, own = with_board(needed - 0.2, depth)
    found = the_one(RULE, parts, FILL, materials=own, zone=zone)
    assert (found.outcome, found.severity) == ("too little outside", Severity.MEND)


@pytest.mark.parametrize("zone", ["1A", "2A", "3A", "4A"])
def test_warm_zones_ask_for_none(zone):
    assert the_one(RULE, [wall([GYPSUM, BATT, STRAND, SIDING])], zone=zone).outcome == "none asked"


def test_a_kraft_facing_is_a_retarder_in_the_cold():
    layers = [GYPSUM, KRAFT, BATT, STRAND, SIDING]
    assert the_one(RULE, [wall(layers)], zone="6A").outcome == "retarder inside"


def test_retarder_paint_is_one_too():
    layers = [GYPSUM, BATT, STRAND, SIDING]
    seen = {"inside_paint": "vapour retarder"}
    assert the_one(RULE, [wall(layers)], zone="6A", seen=seen).outcome == "retarder inside"


def test_film_inside_and_foam_outside_is_watched():
    layers = [GYPSUM, FILM, BATT, STRAND, FOIL_FOAM, GAP, SIDING]
    found = the_one(RULE, [wall(layers)], zone="6A")
    # foil on both faces: class I with class I asks for a design, R702.7 (memory)
    assert (found.outcome, found.severity) == ("class I on both sides", Severity.MEND)
    layers[4] = solid("extruded polystyrene, modern", "2 in")
    found = the_one(RULE, [wall(layers)], zone="6A")
    assert (found.outcome, found.severity) == ("retarder inside, foam outside", Severity.WATCH)


def test_kraft_with_thin_foam_takes_the_table_for_class_ii():
    # R-3 over 2x4 in zone 6: of foil foam is too little, R-10 is enough
    thin = solid("polyisocyanurate, foil faced, aged", "0.4 in")
    layers = [GYPSUM, KRAFT, bays(), STRAND, thin, GAP, SIDING]
    assert the_one(RULE, [wall(layers)], FILL, zone="6A").outcome == "too little outside, closed"
    layers[4] = FOIL_FOAM
    assert the_one(RULE, [wall(layers)], FILL, zone="6A").outcome == "enough outside"


EPS = "expanded polystyrene"


@pytest.mark.parametrize(
    ("zone", "thickness", "outcome"),
    [
        # R702.7(4) over 2x6: R-2 in zone 3, R-5 in zones 4 to 6, R-7.5 in 7; 1 in is
        ("3A", "1 in", "enough outside"),
        ("3A", "1/4 in", "too little foam outside"),
        ("4A", "1 in", "too little foam outside"),
        ("4A", "2 in", "enough outside"),
        ("7", "1 in", "too little foam outside"),
        ("7", "2 in", "enough outside"),
    ],
)
def test_kraft_inside_foam_that_lets_vapour_through(zone, thickness, outcome):
    bay = bays("air", "5 1/2 in")
    layers = [GYPSUM, KRAFT, bay, STRAND, solid(EPS, thickness), solid("stucco", "3/4 in")]
    found = the_one(RULE, [wall(layers)], FILL, zone=zone)
    assert found.outcome == outcome


def test_a_retarder_is_offered_only_where_it_would_do():
    """1 in of R-4.1 over 2x6 in zone 7: with class II inside the table still asks R-7.5."""
    layers = [GYPSUM, bays("air", "5 1/2 in"), STRAND, solid(EPS, "1 in"), SIDING]
    assert the_one(RULE, [wall(layers)], FILL, zone="7").outcome == "too little foam outside"
    plain = [GYPSUM, bays("air", "5 1/2 in"), STRAND, SIDING]
    assert the_one(RULE, [wall(plain)], FILL, zone="7").outcome == "too little outside"


def test_a_wall_that_was_found_so_is_watched():
    found = the_one(RULE, [wall([GYPSUM, BATT, STRAND, SIDING])], zone="7")
    assert (found.outcome, found.severity) == ("found with too little outside", Severity.WATCH)


def test_foam_in_the_bays_is_its_own_retarder():
    layers = [GYPSUM, bays("closed-cell sprayed foam, aged"), STRAND, SIDING]
    assert the_one(RULE, [wall(layers)], zone="6A").outcome == "retarder inside"


@pytest.mark.parametrize(
    ("zone", "sheathing", "outcome"),
    [
        ("5A", STRAND, "vented cladding"),
        ("6A", STRAND, "too little outside"),
        ("6A", solid("gypsum sheathing"), "vented cladding"),
        ("7", solid("gypsum sheathing"), "too little outside"),
    ],
)
def test_cladding_over_a_gap(zone, sheathing, outcome):
    layers = [GYPSUM, bays(), sheathing, GAP, SIDING]
    assert the_one(RULE, [wall(layers)], FILL, zone=zone).outcome == outcome


def test_vinyl_siding_counts_as_vented_by_itself():
    layers = [GYPSUM, BATT, STRAND, solid("vinyl siding", "1 mm")]
    assert the_one(RULE, [wall(layers)], zone="5A").outcome == "vented cladding"


@pytest.mark.parametrize(
    ("inner", "zone", "outcome"),
    [
        (FILM, "2A", "too tight"),
        (FILM, "4A", "too tight"),
        # footnote to IRC 2021 Table R702.7(2): more than 1 perm when wet (memory)
        (KRAFT, "2A", "opens when damp"),
        (solid("vapour-variable membrane", "0.2 mm"), "1A", "opens when damp"),
        (solid("expanded polystyrene", "3 in"), "2A", "tight for the zone"),
        (KRAFT, "3A", "none asked"),
    ],
)
def test_what_warm_zones_do_not_want(inner, zone, outcome):
    layers = [GYPSUM, inner, BATT, STRAND, SIDING]
    assert the_one(RULE, [wall(layers)], zone=zone).outcome == outcome


def test_sheathing_that_insulates_counts():
    layers = [GYPSUM, BATT, solid("wood-fibre sheathing board", "4 in"), GAP, SIDING]
    assert the_one(RULE, [wall(layers)], zone="6A").outcome == "enough outside"


def test_it_is_silent_of_empty_bays_and_open_where_it_knows_too_little():
    assert findings(RULE, [wall([GYPSUM, bays(), STRAND, SIDING])], zone="6A") == {}
    assert the_one(RULE, [wall([GYPSUM, BATT, STRAND])], zone=None).outcome == "zone not known"
    own = {"own film": {"conductivity": "0.3 W/(m*K)"}}
    layers = [GYPSUM, solid("own film", "1 mm"), BATT, STRAND]
    found = the_one(RULE, [wall(layers)], zone="2A", materials=own)
    assert found.outcome == "vapour not known"


def test_foam_in_the_bays_of_a_warm_zone_is_no_fault():
    foam = bays("closed-cell sprayed foam, aged", "3 1/2 in")
    assert the_one(RULE, [wall([GYPSUM, foam, STRAND, SIDING])], zone="1A").outcome == "none asked"


def test_behind_a_veneer_that_stays_no_board_is_asked_for():
    gap = {"air_layer": "slightly ventilated", "thickness": "1 in"}
    veneer = solid("brick veneer", "3 5/8 in")
    empty = [GYPSUM, bays("air"), STRAND, gap, veneer]
    fill = {"wall": {"fill": "dense-pack cellulose"}}
    found = the_one(RULE, [wall(empty)], fill, zone="7")
    assert found.outcome == "too little outside, behind brick"
    assert found.severity is Severity.MEND


@pytest.mark.parametrize("film", [(), (FILM,)])
def test_the_tables_for_frame_walls_say_nothing_of_solid_brick(film):
    brick = wall([solid("lime plaster", "7/8 in"), BRICK])
    studs = {"wall": {"inside": [GYPSUM, *film, BATT]}}
    assert findings(RULE, [brick], studs, zone="6A") == {}
