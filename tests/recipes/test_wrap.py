"""Board around the outside: which walls and roofs take it, and what comes off and goes on."""

import pytest

from server.recipes.making import make_strategy
from tests.recipes.houses import (
    BOARDS,
    BRICK,
    CEILING,
    FELT,
    GABLE,
    PLASTER,
    ROOF,
    SHINGLES,
    SIDING,
    WALL,
    bays,
    part,
    project,
    rebuilt,
    solid,
    written,
)

AIR_BARRIER = {
    "material": "self-adhered membrane, vapour-open",
    "thickness": "0.6 mm",
    "name": "air barrier",
}
GAP = {"air_layer": "well ventilated", "thickness": "3/4 in", "name": "ventilated gap"}


def made_of(parts, recipe, **keys):
    found = project(parts, **keys)
    made = make_strategy(found, recipe)
    rebuilt(found, (made,))
    return written(made)


def wall_change(layers, recipe="exterior continuous", **keys):
    return made_of([WALL | {"layers": layers}], recipe, **keys)["changes"].get(WALL["name"])


def board(name, thickness, label):
    return {
        "material": "rigid mineral wool board",
        "thickness": thickness,
        "name": name,
        "label_resistance": label,
        "fasteners": {
            "per_area": {"value": "0.5625 per ft^2", "basis": "default"},  # 16 in apart, both ways
            "material": "steel",
            "diameter": {"value": "0.19 in", "basis": "default"},
        },
    }


def test_a_wall_is_wrapped():
    assert wall_change(WALL["layers"]) == {
        "remove": ["old siding"],
        "outside": [
            AIR_BARRIER,
            board("inner board", "2 in", "R-8"),
            board("outer board, joints offset", "2 in", "R-8"),
            GAP,
            {
                "material": "wood lap siding",
                "thickness": {"value": "1/2 in", "basis": "default"},
                "name": "new siding",
            },
        ],
    }


# IECC 2021 Table R402.1.3, from memory: R10, R15, R20 alone; R5, R10 outside filled bays.
@pytest.mark.parametrize(
    ("zone", "recipe", "thicknesses"),
    [
        ("2A", "exterior continuous", ["2 1/2 in"]),
        ("3A", "exterior continuous", ["2 in", "2 in"]),
        ("6A", "exterior continuous", ["2 in", "2 in"]),
        (None, "exterior continuous", ["2 in", "2 in"]),
        ("3A", "hybrid", ["1 1/2 in"]),
        ("4A", "hybrid", ["2 1/2 in"]),
    ],
)
def test_board_by_zone(zone, recipe, thicknesses):
    outside = wall_change(WALL["layers"], recipe, zone=zone)["outside"]
    boards = [layer for layer in outside if layer.get("material") == "rigid mineral wool board"]
    assert [layer["thickness"] for layer in boards] == thicknesses


def test_the_hybrid_fills_the_bays_too():
    change = wall_change(WALL["layers"], "hybrid")
    assert change["fill"] == "dense-pack cellulose"
    assert change["remove"] == ["old siding"]


@pytest.mark.parametrize(
    "layers",
    [
        [PLASTER, bays(), BOARDS, solid("stucco", "7/8 in")],
        [PLASTER, bays(), BOARDS, solid("brick veneer", "3 5/8 in")],
        [PLASTER, BRICK],
        [PLASTER, BRICK, SIDING],
        [PLASTER, solid("own old brick", "8 in")],
        [PLASTER, bays(), BOARDS],
        [SIDING],
    ],
    ids=["stucco", "veneer", "brick", "siding on brick", "own brick", "no siding", "only siding"],
)
def test_walls_that_stay_as_found(layers):
    own = {"own old brick": {"conductivity": "0.7 W/(m*K)"}}
    assert wall_change(layers, materials=own) is None


def test_behind_brick_the_hybrid_still_fills():
    change = wall_change([PLASTER, bays(), BOARDS, solid("brick veneer", "4 in")], "hybrid")
    assert change == {"fill": "dense-pack cellulose", "fill_label_resistance": "R-13"}


@pytest.mark.parametrize(
    ("outer", "remove", "new"),
    [
        ([solid("wood shingle")], ["wood shingle"], "wood shingle"),
        (
            [SIDING, solid("asbestos-cement shingle", "3/16 in")],
            ["old siding", "asbestos-cement shingle"],
            "fibre-cement siding",
        ),
        (
            [solid("asphalt-faced fibreboard siding")],
            ["asphalt-faced fibreboard siding"],
            "fibre-cement siding",
        ),
        (
            [FELT, GAP, solid("vinyl siding", "0.04 in")],
            ["ventilated gap", "vinyl siding"],
            "vinyl siding",
        ),
        (
            [{"resistance": "R-0.8", "name": "siding of some sort"}],
            ["siding of some sort"],
            "fibre-cement siding",
        ),
    ],
    ids=["shingle", "asbestos over wood", "asphalt", "vinyl on a gap", "only R known"],
)
def test_what_comes_off_and_what_goes_on(outer, remove, new):
    change = wall_change([PLASTER, bays(), BOARDS, *outer])
    assert change["remove"] == remove
    assert change["outside"][-1]["material"] == new


def test_a_gap_that_cannot_be_named_keeps_the_wall_as_found():
    # Board outside a gap open to outdoors would insulate nothing: ISO 6946 6.9.
    gap = {key: value for key, value in GAP.items() if key != "name"}
    assert wall_change([PLASTER, bays(), BOARDS, gap, solid("vinyl siding", "0.04 in")]) is None


def test_a_removal_takes_only_the_siding():
    inside = solid("wood lap siding", "1/2 in", name="panelling")
    change = wall_change([inside, bays(), BOARDS, SIDING])
    assert change["remove"] == ["old siding"]
    unnamed = solid("wood lap siding")
    assert wall_change([inside, bays(), BOARDS, unnamed]) is None
    assert wall_change([PLASTER, bays(name="wood lap siding"), BOARDS, unnamed]) is None


def test_the_attic_comes_inside_with_its_roof_and_gables():
    made = made_of([WALL, CEILING, ROOF, GABLE], "exterior continuous")
    assert made["inside"] == ["attic"]
    roof = made["changes"]["attic roof"]
    assert roof["remove"] == ["old felt", "old roofing"]
    assert roof["outside"] == [
        AIR_BARRIER,
        board("inner roof board", "4 in", "R-16"),
        board("outer roof board, joints offset", "4 in", "R-16"),
        GAP | {"thickness": "1 1/2 in"},
        {"material": "plywood", "thickness": "5/8 in", "name": "new sheathing"},
        {"material": "asphalt felt", "thickness": "0.04 in", "name": "new felt"},
        {
            "material": "asphalt shingle",
            "thickness": {"value": "1/2 in", "basis": "default"},
            "name": "new roofing",
        },
    ]
    assert made["changes"]["gable"]["remove"] == ["old siding"]
    assert "inside" not in made["changes"]["gable"]


def test_the_hybrid_lays_batts_behind_thinner_board():
    changes = made_of([WALL, CEILING, ROOF, GABLE], "hybrid")["changes"]
    (rafters,) = changes["attic roof"]["inside"]
    assert rafters["framed"]["fill"] == "mineral wool batt"
    assert rafters["framed"]["depth"] == {"value": "5 1/2 in", "basis": "default"}
    assert rafters["label_resistance"] == "R-23"
    assert changes["attic roof"]["outside"][1] == board("inner roof board", "2 in", "R-8")
    assert changes["gable"]["inside"][0]["label_resistance"] == "R-15"


@pytest.mark.parametrize(
    ("access", "fill"),
    [("open", "mineral wool batt"), ("closed", "dense-pack cellulose")],
)
def test_empty_rafter_bays_are_filled_under_the_hybrid(access, fill):
    layers = [bays(depth="5 1/2 in"), BOARDS, FELT, SHINGLES]
    roof = ROOF | {"layers": layers, "access": access}
    assert made_of([WALL, CEILING, roof], "hybrid")["changes"]["attic roof"]["fill"] == fill
    exterior = made_of([WALL, CEILING, roof], "exterior continuous")["changes"]["attic roof"]
    assert "fill" not in exterior


@pytest.mark.parametrize(
    "material", ["clay roof tile", "concrete roof tile", "slate", "metal roofing sheet"]
)
def test_a_roof_gets_its_old_material_again(material):
    roof = ROOF | {"layers": [BOARDS, FELT, solid(material, "1/2 in")]}
    change = made_of([WALL, CEILING, roof], "hybrid")["changes"]["attic roof"]
    assert change["remove"] == ["old felt", material]
    assert change["outside"][-1]["material"] == material


@pytest.mark.parametrize("name", ["garage", "Porch roof space", "attached garage"])
def test_a_garage_never_comes_inside(name):
    parts = [
        WALL,
        part("garage wall", "wall", ("indoors", name), [PLASTER, bays()]),
        part("garage roof", "roof", (name, "outdoors"), [BOARDS, SHINGLES]),
    ]
    made = made_of(parts, "exterior continuous")
    assert "inside" not in made
    assert made["changes"]["garage wall"]["fill"] == "dense-pack cellulose"


def test_a_roof_ventilated_below_its_deck_keeps_the_attic_outside():
    layers = [bays(depth="5 1/2 in"), GAP, BOARDS, FELT, SHINGLES]
    made = made_of([WALL, CEILING, ROOF | {"layers": layers}], "exterior continuous")
    assert "inside" not in made
    assert "upper ceiling" in made["changes"]
