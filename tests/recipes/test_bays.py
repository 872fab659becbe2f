"""What is blown or laid into the bays, and what is left alone."""

import pytest

from server.recipes.making import make_strategy
from tests.recipes.houses import (
    BOARDS,
    CEILING,
    FLOOR,
    FLOORING,
    PLASTER,
    ROOF,
    SIDING,
    WALL,
    bays,
    part,
    project,
    rebuilt,
    solid,
    written,
)


def changes_of(parts, recipe="cavity-only", **keys):
    found = project(parts, **keys)
    made = make_strategy(found, recipe)
    rebuilt(found, (made,))
    return written(made)["changes"]


def change_of(changed, recipe="cavity-only", **keys):
    parts = [changed] if changed["name"] == WALL["name"] else [WALL, changed]
    return changes_of(parts, recipe, **keys).get(changed["name"])


@pytest.mark.parametrize("access", [{}, {"access": "closed"}])
@pytest.mark.parametrize(
    ("depth", "label"), [("3 1/2 in", "R-13"), ("3 5/8 in", "R-13"), ("5 1/2 in", "R-20")]
)
def test_closed_bays_are_dense_packed_to_the_full_depth(access, depth, label):
    # an inch, blown at 3.5 lb per cubic foot: common practice.
    wall = {key: value for key, value in WALL.items() if key != "access"}
    wall = wall | access | {"layers": [PLASTER, bays(depth=depth), BOARDS, SIDING]}
    assert change_of(wall) == {"fill": "dense-pack cellulose", "fill_label_resistance": label}


def test_open_bays_take_batts():
    wall = WALL | {"access": "open"}
    assert change_of(wall) == {"fill": "mineral wool batt", "fill_label_resistance": "R-15"}


def test_balloon_bays_are_dense_packed():
    wall = WALL | {"layers": [PLASTER, bays(open_ends=True), BOARDS, SIDING]}
    assert change_of(wall)["fill"] == "dense-pack cellulose"


@pytest.mark.parametrize(
    "layers",
    [
        [PLASTER, bays("mineral wool batt"), BOARDS, SIDING],
        [PLASTER, bays("glass fibre batt", fill_thickness="2 in"), BOARDS, SIDING],
        [PLASTER, bays(depth="3/4 in"), BOARDS, SIDING],
        [PLASTER, bays(), bays(), BOARDS, SIDING],
        [PLASTER, BOARDS, SIDING],
    ],
    ids=["filled", "partly filled", "shallow furring", "two empty layers", "no bays"],
)
def test_what_cannot_be_filled_stays(layers):
    assert change_of(WALL | {"layers": layers}) is None


def test_of_two_framed_layers_the_empty_one_is_filled():
    layers = [PLASTER, bays("mineral wool batt"), bays(), BOARDS, SIDING]
    assert change_of(WALL | {"layers": layers})["fill"] == "dense-pack cellulose"


def test_a_wall_of_known_u_stays():
    wall = WALL | {"layers": [], "u_value": "0.3 Btu/(hour*ft^2*delta_degF)"}
    assert change_of(wall) is None


@pytest.mark.parametrize(
    ("zone", "depth", "label"),
    [("1A", "9 in", "R-30"), ("2A", "14 1/2 in", "R-49"), ("4A", "17 1/2 in", "R-60")],
)
def test_an_attic_floor_is_blown_to_the_whole_depth(zone, depth, label):
    # ASHRAE Fundamentals 0.042 W/(m K): an inch.
    assert changes_of([WALL, CEILING, ROOF], zone=zone)["upper ceiling"] == {
        "fill": "cellulose loose fill",
        "fill_thickness": depth,
        "fill_label_resistance": label,
    }


def test_a_deep_attic_floor_stays():
    layers = [PLASTER, bays("cellulose loose fill", "5 1/2 in", fill_thickness="20 in", open=True)]
    assert "upper ceiling" not in changes_of([WALL, CEILING | {"layers": layers}, ROOF])


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("air", "cellulose loose fill"),
        ("glass fibre loose fill", "cellulose loose fill"),
        ("damp-spray cellulose", "damp-spray cellulose"),
        ("wet cellulose, invented", "cellulose loose fill"),
    ],
)
def test_only_sound_cellulose_is_kept_in_the_attic(old, new):
    layers = [PLASTER, bays(old, "5 1/2 in", open=True)]
    own = {"wet cellulose, invented": {"conductivity": "0.6 W/(m*K)"}}
    changes = changes_of([WALL, CEILING | {"layers": layers}, ROOF], materials=own)
    assert changes["upper ceiling"]["fill"] == new


def test_a_floored_attic_is_dense_packed():
    layers = [PLASTER, bays(depth="7 1/4 in"), solid("softwood", "3/4 in")]
    ceiling = CEILING | {"layers": layers, "access": "closed"}
    assert changes_of([WALL, ceiling, ROOF])["upper ceiling"]["fill"] == "dense-pack cellulose"


@pytest.mark.parametrize(
    ("zone", "depth", "label"),
    [
        ("2A", "3 1/2 in", "R-15"),
        ("4A", "5 1/2 in", "R-23"),
        ("5A", "7 1/4 in", "R-30"),
        ("7", "9 1/4 in", "R-39"),
    ],
)
@pytest.mark.parametrize("recipe", ["cavity-only", "hybrid"])
def test_a_bare_floor_over_a_buffer_gets_batts_below(zone, depth, label, recipe):
    (layer,) = change_of(FLOOR, recipe, zone=zone)["outside"]
    assert layer["framed"]["fill"] == "mineral wool batt"
    assert layer["framed"]["fill_thickness"] == depth
    assert layer["framed"]["depth"] == {"value": "9 1/4 in", "basis": "default"}
    assert layer["framed"]["open"] is True
    assert layer["label_resistance"] == label


@pytest.mark.parametrize(
    ("framed", "access", "change"),
    [
        (
            bays(depth="9 1/4 in"),
            "open",
            {
                "fill": "mineral wool batt",
                "fill_label_resistance": "R-23",
                "fill_thickness": "5 1/2 in",
            },
        ),
        (
            bays(depth="3 1/2 in"),
            "open",
            {"fill": "mineral wool batt", "fill_label_resistance": "R-15"},
        ),
        (
            bays(depth="9 1/4 in"),
            "closed",
            {"fill": "dense-pack cellulose", "fill_label_resistance": "R-33"},
        ),
        (bays(depth="9 1/4 in", open=True), "closed", None),
    ],
    ids=["deep", "shallow", "closed", "said to be open and closed"],
)
def test_floor_bays(framed, access, change):
    floor = FLOOR | {"layers": [FLOORING, framed], "access": access}
    assert change_of(floor) == change


@pytest.mark.parametrize(
    "layers",
    [
        [FLOORING, solid("expanded polystyrene", "2 in")],
        [solid("concrete", "6 in")],
        [FLOORING, bays("mineral wool batt", "9 1/4 in")],
    ],
)
def test_a_floor_of_concrete_or_with_insulation_stays(layers):
    assert change_of(FLOOR | {"layers": layers}) is None


KNEE_WALL = part("knee wall", "wall", ("indoors", "attic"), [PLASTER, bays()], access="open")


@pytest.mark.parametrize(
    ("access", "fill"), [("open", "mineral wool batt"), ("closed", "dense-pack cellulose")]
)
def test_knee_walls_are_filled_under_cavity_only(access, fill):
    parts = [WALL, CEILING, ROOF, KNEE_WALL | {"access": access}]
    assert changes_of(parts)["knee wall"]["fill"] == fill


@pytest.mark.parametrize("recipe", ["exterior continuous", "hybrid"])
def test_within_an_attic_that_comes_inside_nothing_is_filled(recipe):
    changes = changes_of([WALL, CEILING, ROOF, KNEE_WALL], recipe)
    assert "knee wall" not in changes
    assert "upper ceiling" not in changes


@pytest.mark.parametrize("recipe", ["exterior continuous", "hybrid"])
def test_under_an_attic_that_stays_outside_the_floor_is_blown(recipe):
    roof = ROOF | {"layers": [], "u_value": "0.5 Btu/(hour*ft^2*delta_degF)"}
    found = project([WALL, CEILING, roof, KNEE_WALL])
    made = written(make_strategy(found, recipe))
    assert "inside" not in made
    assert made["changes"]["upper ceiling"]["fill_label_resistance"] == "R-60"
    assert made["changes"]["knee wall"]["fill"] == "mineral wool batt"
