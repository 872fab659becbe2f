"""The order of the job: one that a crew would follow, whatever a strategy does."""

import itertools

import pytest

from server.crew.places import Place, placed_items
from server.crew.sequence import SEQUENCE, lines_of, sequence, stage_of
from server.crew.stage_words import stage_note, stage_title
from server.files.house_file import StrategyEntry
from server.pricing.layer_work import layer_works
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from tests.recipes.houses import (
    BOARDS,
    CEILING,
    PLASTER,
    ROOF,
    SIDING,
    SLAB,
    WALL,
    WHOLE,
    bays,
    part,
    project,
    solid,
)

CODES = [stage.code for stage in SEQUENCE]
MEMBRANE = solid("self-adhered membrane, vapour-open", "0.6 mm")
BOARD = solid("rigid mineral wool board", "2 in")
GAP = {"air_layer": "well ventilated", "thickness": "3/4 in"}
WRAP = {"remove": ["old siding"], "outside": [MEMBRANE, BOARD, GAP, SIDING]}


def staged(found, **keys):
    """Stage to the steps done in it, in order."""
    entry = StrategyEntry.model_validate({"name": "one", "recipe": "own"} | keys)
    items = take_off(found, entry)
    stages = sequence(placed_items(found.file, layer_works(found.file, entry), items))
    return {stage.code: [line.step for line in stage.lines] for stage in stages}


def of_demo(demo, name):
    entry = next(each for each in demo.file.strategies if each.name == name)
    works = layer_works(demo.file, entry)
    return sequence(placed_items(demo.file, works, take_off(demo, entry)))


# Every pair that a crew may not turn round, and why.
ORDER = [
    ("before", "protect"),  # tests and repairs decide whether the job begins
    ("hazards", "take off"),  # nobody works beside asbestos
    ("take off", "repair"),
    ("repair", "air barrier"),  # water and structure first
    ("opened bays", "air barrier"),  # it covers the holes
    ("wrapped bays", "air barrier"),
    ("ground cover", "closed bays"),
    ("ground cover", "batts"),  # damp goes up into them
    ("ground cover", "basement"),
    ("air barrier", "boards"),
    ("boards", "strips"),
    ("strips", "skin"),
    ("openings", "skin"),  # flashing goes behind the cladding
    ("air sealing", "closed bays"),
    ("air sealing", "attic"),  # fill hides the holes
    ("batts", "test while open"),
    ("test while open", "attic"),
    ("test while open", "basement"),
    ("test while open", "linings"),  # leaks can still be reached
    ("linings", "test out"),
    ("ventilation", "test out"),
    ("equipment", "test out"),
]


@pytest.mark.parametrize(("first", "then"), ORDER)
def test_one_comes_before_the_other(first, then):
    assert CODES.index(first) < CODES.index(then)


def test_every_step_has_its_turn_wherever_it_is_done():
    for step, place in itertools.product(Step, Place):
        assert stage_of(step, place) in CODES


def test_an_attic_among_the_rooms_is_not_aired():
    assert "baffles" in stage_note("attic")
    assert "baffles" not in stage_note("attic", attics_inside=True)
    assert stage_note("batts", attics_inside=True) == stage_note("batts")


def test_sills_are_told_of_where_there_are_openings():
    assert "Sill pans" in stage_note("air barrier")
    assert "Sill pans" not in stage_note("air barrier", has_openings=False)


def test_where_walls_stand_in_the_ground_somebody_digs():
    board = {"outside": [solid("expanded polystyrene", "2 in")]}
    stages = staged(project(WHOLE), changes={"basement wall": board})
    assert stages["in the ground"] == [Step.NEW_BOARD]
    assert "dug free" in stage_note("in the ground")
    assert "footing" in stage_note("edge")
    inside = staged(project(WHOLE), changes={"basement wall": {"inside": board["outside"]}})
    assert "in the ground" not in inside


def test_every_stage_has_words():
    assert len(set(CODES)) == len(CODES)
    assert all(stage_title(code) for code in CODES)
    told = [stage_note(code) for code in CODES]
    assert sum(note is None for note in told) <= 3


@pytest.mark.parametrize("name", ["Cavity only", "Exterior continuous", "Hybrid"])
def test_the_demo_house_in_order_with_nothing_lost(demo, name):
    stages = of_demo(demo, name)
    codes = [stage.code for stage in stages]
    assert codes == [code for code in CODES if code in codes]
    entry = next(each for each in demo.file.strategies if each.name == name)
    items = take_off(demo, entry)
    staged_amount = sum(line.amount for stage in stages for line in stage.lines)
    assert staged_amount == pytest.approx(sum(item.quantity for item in items))
    named = {part for stage in stages for line in stage.lines for part in line.components}
    assert named == {item.component for item in items if item.component}


def test_nothing_done_has_no_order():
    assert staged(project(WHOLE)) == {}


def test_a_wrapped_wall_from_the_sheathing_outward():
    stages = staged(project([WALL]), changes={"wall": WRAP})
    assert stages["air barrier"] == [Step.NEW_MEMBRANE]
    assert stages["boards"] == [Step.NEW_BOARD]
    assert stages["strips"] == [Step.FURRING]
    assert stages["skin"] == [Step.NEW_CLADDING]
    assert "repair" in stages
    assert "test while open" not in stages


def test_bays_of_a_wrapped_wall_are_filled_before_the_wrap_and_others_after():
    opened = staged(project([WALL]), changes={"wall": WRAP | {"fill": "dense-pack cellulose"}})
    assert opened["opened bays"] == [Step.NEW_FILL]
    assert "closed bays" not in opened
    closed = staged(project([WALL]), changes={"wall": {"fill": "dense-pack cellulose"}})
    assert closed["closed bays"] == [Step.DRILL_OUTSIDE, Step.NEW_FILL]
    assert "opened bays" not in closed


OVER_SIDING = {"fill": "dense-pack cellulose", "outside": [MEMBRANE, BOARD, GAP, SIDING]}


def test_bays_of_a_wall_that_is_wrapped_over_its_siding_are_blown_before_the_wrap():
    stages = staged(project([WALL]), changes={"wall": OVER_SIDING})
    assert stages["wrapped bays"] == [Step.DRILL_OUTSIDE, Step.NEW_FILL]
    assert "closed bays" not in stages
    codes = list(stages)
    assert codes.index("wrapped bays") < codes.index("air barrier") < codes.index("skin")
    only_siding = {"fill": "dense-pack cellulose", "outside": [GAP, SIDING]}
    codes = list(staged(project([WALL]), changes={"wall": only_siding}))
    assert codes.index("wrapped bays") < codes.index("skin")


def test_bays_that_are_reached_otherwise_do_not_wait_for_the_wrap():
    within = staged(project([WALL | {"access": "open"}]), changes={"wall": OVER_SIDING})
    assert "wrapped bays" not in within
    lining_off = OVER_SIDING | {"remove": ["inside face"], "inside": [solid("gypsum board")]}
    assert "wrapped bays" not in staged(project([WALL]), changes={"wall": lining_off})
    blown = {"wall": {"fill": "dense-pack cellulose"}}
    assert "wrapped bays" not in staged(project([WALL]), changes=blown)


def test_felt_under_new_roofing_is_no_air_barrier():
    """The same membrane twice: under the board, and over the new sheathing."""
    outside = [MEMBRANE, BOARD, GAP, solid("plywood", "5/8 in"), MEMBRANE, solid("asphalt shingle")]
    change = {"remove": ["old felt", "old roofing"], "outside": outside}
    stages = staged(project([CEILING, ROOF]), changes={"attic roof": change})
    assert stages["air barrier"] == [Step.NEW_MEMBRANE]
    assert stages["skin"] == [Step.NEW_SHEATHING, Step.NEW_MEMBRANE, Step.NEW_ROOFING]


def test_attic_fill_waits_for_sealing_and_test():
    blown = {"fill_thickness": "14 in"}
    stages = list(staged(project([CEILING]), changes={"ceiling": blown}, ach50=5))
    asked = ["air sealing", "test while open", "attic", "test out"]
    assert [code for code in stages if code in asked] == asked


def test_asbestos_goes_before_anything_else_comes_off():
    shingles = solid("asbestos-cement shingle", "1/4 in", name="shingles")
    wall = part(
        "wall", "wall", ("indoors", "outdoors"), [PLASTER, bays(), BOARDS, SIDING, shingles]
    )
    stages = staged(project([wall]), changes={"wall": {"remove": ["shingles", "old siding"]}})
    assert stages["hazards"] == [Step.TAKE_OFF_ASBESTOS]
    assert stages["take off"] == [Step.TAKE_OFF_CLADDING, Step.DISPOSAL]


def test_inside_board_of_a_room_comes_with_its_lining_after_the_test():
    inside = [solid("gypsum board"), solid("expanded polystyrene", "1 in")]
    stages = staged(project([WALL]), changes={"wall": {"inside": inside}}, ach50=5)
    assert stages["linings"] == [Step.NEW_BOARD, Step.NEW_LINING]
    assert "test while open" in stages


def test_slab_edges_have_their_own_step():
    edge = {"resistance": "R-8", "depth": "2 ft", "thickness": "2 in"}
    stages = staged(project([WALL, SLAB]), edge_insulation={"sun-room slab": edge})
    assert stages["edge"] == [Step.EDGE_TRENCH, Step.EDGE_BOARD]


def test_alike_items_are_one_line_with_all_their_places(demo):
    entry = demo.file.strategies[0]
    lines = lines_of(take_off(demo, entry))
    drilled = [line for line in lines if line.step is Step.DRILL_OUTSIDE]
    assert len(drilled) == 1
    assert len(drilled[0].components) == 7
