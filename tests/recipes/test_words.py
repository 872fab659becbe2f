"""Strategies told in words."""

import json

import pytest

from server.files.building import read_project
from server.files.house_file import AssemblyEntry, LayerChangeEntry, StrategyEntry
from server.recipes.making import RECIPES, make_strategies, make_strategy
from server.recipes.words import change_in_words, strategy_in_words
from tests.recipes.houses import BOARDS, BRICK, FELT, PLASTER, SIDING, WHOLE, bays, project, solid
from tests.recipes.ranch import ranch

WALL = [PLASTER, bays(depth="3 5/8 in"), BOARDS, SIDING]


def words(change, layers=None):
    found = None if layers is None else AssemblyEntry.model_validate({"layers": layers})
    entry = change if isinstance(change, str) else LayerChangeEntry.model_validate(change)
    return change_in_words(entry, found)


def demo_words(demo, strategy, name):
    component = next(each for each in demo.file.components if each.name == name)
    change = demo.file.strategies[strategy].changes
    found = demo.file.assemblies[component.assembly]
    return change_in_words(change.get(name, change.get(component.kind)), found)


SCREWS = ", screws through it, 0.56\N{NO-BREAK SPACE}per ft²"
WRAPPED = (
    "Take off: old siding",
    "Self-adhered membrane, vapour-open, outside the sheathing",
    "4 in rigid mineral wool board outside the sheathing, in two layers, joints offset" + SCREWS,
    "New wood lap siding over a 3/4 in ventilated gap",
)
RENEWED = (
    "New 5/8 in plywood over a 1 1/2 in ventilated gap",
    "New asphalt felt",
    "New asphalt shingle",
)
LINED = (
    "3 in expanded polystyrene on the inside face, in two layers, joints offset",
    "1/2 in gypsum board on the inside face",
)


@pytest.mark.parametrize(
    ("strategy", "name", "told"),
    [
        (0, "north wall", ("Dense-pack cellulose blown into the closed bays, 3 5/8 in",)),
        (
            0,
            "south knee wall",
            (
                "Take off: attic-side paper",
                "Mineral wool batt fitted between the framing, 3 5/8 in",
                "1/2 in gypsum board on the framing",
            ),
        ),
        (0, "upper ceiling", ("Cellulose loose fill blown to an even settled depth, 14 in",)),
        (0, "floor over the basement", ("Mineral wool batt between the framing, 5 1/2 in",)),
        (
            0,
            "basement wall behind the sun room",
            ("2 in rigid mineral wool board on the brick",),
        ),
        (1, "north wall", WRAPPED),
        (1, "south knee wall", ("Built anew as “knee wall as found”",)),
        (
            1,
            "north sloped ceiling",
            (
                "Take off: old roofing, old felt",
                "Self-adhered membrane, vapour-open, outside the sheathing",
                "8 in rigid mineral wool board outside the sheathing, in two layers, joints offset"
                + SCREWS,
                *RENEWED,
            ),
        ),
        (1, "basement wall below grade", LINED),
        (1, "east basement wall above grade", LINED),
        (
            2,
            "north wall",
            (
                "Take off: old siding",
                "Dense-pack cellulose blown into the closed bays, 3 5/8 in",
                "Self-adhered membrane, vapour-open, outside the sheathing",
                "2 in rigid mineral wool board outside the sheathing" + SCREWS,
                "New wood lap siding over a 3/4 in ventilated gap",
            ),
        ),
        (
            2,
            "roof over the south side attic",
            (
                "Take off: old roofing, old felt",
                "Mineral wool batt between the framing, 5 1/2 in",
                "Self-adhered membrane, vapour-open, outside the sheathing",
                "4 in rigid mineral wool board outside the sheathing, in two layers, joints offset"
                + SCREWS,
                *RENEWED,
            ),
        ),
    ],
)
def test_the_changes_of_the_demo_house(demo, strategy, name, told):
    assert demo_words(demo, strategy, name) == told


def test_the_demo_house_as_a_whole(demo):
    assert strategy_in_words(demo.file.strategies[2], demo.file) == (
        "The south side attic comes inside: its vents are closed",
        "The north side attic comes inside: its vents are closed",
        "The upper attic comes inside: its vents are closed",
        "Sun-room slab: edge insulated 2 ft deep, 2 in, R-8",
        "4 junctions made better: outside corners, main floor edge at the foundation, "
        "rakes at the sloped ceilings, sun-room slab edge",
        "5 junctions lose more than before: window and door edges, south eaves, north eaves, "
        "porch roof against the north wall, sun-room roof against the south wall",
        "Air sealed to 4.5 air changes an hour at 50 Pa",
        "Balanced ventilation, 75\u00a0cfm, 70\u00a0% of the heat recovered",
    )


def test_openings_in_words(demo):
    told = strategy_in_words(demo.file.strategies[1], demo.file)
    assert "East basement windows: new, U 0.320\u00a0Btu/(h·ft²·°F), SHGC 0.4" in told


def test_the_rest_in_words(demo):
    strategy = StrategyEntry.model_validate(
        {
            "name": "own",
            "recipe": "own",
            "cfm50": 1200,
            "ventilation": {"flow": "30 L/s", "balanced": False},
            "spaces": {"basement": {"air_changes": "0.2 1/hour"}},
            "heating": {"fuel": "electricity", "efficiency": 3.1, "ducts_in": "basement"},
            "cooling": {"fuel": "electricity", "efficiency": 4},
            "psi": {
                "south eaves": "0.01 W/(m*K)",
                "upper floor edge at the gable walls": "0.02 W/(m*K)",
            },
            "edge_insulation": {"sun-room slab": {"resistance": "R-5", "width": "2 ft"}},
        }
    )
    assert strategy_in_words(strategy, demo.file) == (
        "The basement stays outside, with 0.2 air changes an hour",
        "Sun-room slab: edge insulated 2 ft wide, laid flat, R-5",
        "1 junction made better: south eaves",
        "Air sealed to 1200\u00a0cfm at 50 Pa",
        "Ventilation by a one-way fan, 30.0\u00a0L/s",
        "New heating: electricity, seasonal efficiency 3.1, ducts or pipes in the basement",
        "New cooling: electricity, seasonal efficiency 4",
    )


def test_nothing_found_is_known():
    assert words({"fill": "dense-pack cellulose"}) == (
        "Dense-pack cellulose blown into the closed bays",
    )
    board = solid("rigid mineral wool board", "50 mm")
    assert words({"outside": [board]}) == ("50 mm rigid mineral wool board on the outside",)


def test_thickness_as_typed_alone_and_summed_together():
    metric = [solid("rigid mineral wool board", "50 mm"), solid("rigid mineral wool board", "60mm")]
    inch = [solid("cork board", '3/4"'), solid("cork board", "5/8 in"), solid("cork board", "1 in")]
    lone = solid("plywood", "0.5 in")
    assert words({"outside": [*metric, lone, *inch]}, WALL) == (
        "110 mm rigid mineral wool board on the framing, in two layers, joints offset",
        "0.5 in plywood on the framing",
        "2 3/8 in cork board on the framing, in three layers, joints offset",
    )


@pytest.mark.parametrize(
    ("layers", "place"),
    [
        ([PLASTER, bays(), BOARDS, FELT], "outside the sheathing"),
        ([PLASTER, BRICK], "on the brick"),
        ([solid("dense concrete block", "8 in")], "on the masonry"),
        ([PLASTER, bays()], "on the framing"),
    ],
)
def test_what_new_layers_stand_on(layers, place):
    told = words({"outside": [solid("cork board", "2 in")]}, layers)
    assert told == (f"2 in cork board {place}",)


def test_hazards_are_named_before_the_work():
    shingles = solid("asbestos-cement shingle", "3/16 in", name="old siding")
    assert words({"remove": ["old siding"]}, [PLASTER, bays(), BOARDS, shingles]) == (
        "Asbestos: whole pieces only, by those licensed to remove it",
        "Take off: old siding",
    )
    attic = [PLASTER, bays("vermiculite loose fill", open=True)]
    assert words({"fill": "cellulose loose fill", "fill_thickness": "14 in"}, attic) == (
        "Vermiculite: tested for asbestos before anyone disturbs it",
        "Take out the old fill: vermiculite loose fill",
        "Cellulose loose fill blown to an even settled depth, 14 in",
    )


def test_more_of_the_old_fill():
    attic = [PLASTER, bays("cellulose loose fill", open=True)]
    assert words({"fill_thickness": "14 in"}, attic) == ("The fill brought to 14 in in all",)


def test_layers_of_which_only_r_is_known():
    gap = {"air_layer": "well ventilated", "thickness": "1 in"}
    roofing = {"resistance": "R-0.4", "name": "new roofing"}
    assert words({"outside": [gap, roofing]}, WALL) == ("New roofing over a 1 in ventilated gap",)
    assert words({"outside": [gap]}, WALL) == ("A 1 in ventilated gap",)
    assert words({"inside": [{"resistance": "R-2"}]}, WALL) == ("R-2 on the inside face",)


def test_all_that_a_recipe_makes_can_be_told(demo):
    components = {component.name: component for component in demo.file.components}
    for strategy in make_strategies(demo):
        assert strategy_in_words(strategy, demo.file)
        for name, change in strategy.changes.items():
            found = demo.file.assemblies[components[name].assembly]
            told = change_in_words(change, found)
            assert told
            assert all(sentence[0].isupper() or sentence[0].isdigit() for sentence in told)
            assert not any("{" in sentence for sentence in told)


VENEER = "front wall, right wall, back wall, left wall"


def test_a_skin_that_stays_is_the_reason_for_walls_without_board():
    made = {each.recipe: each for each in make_strategies(read_project(json.dumps(ranch())))}
    file = read_project(json.dumps(ranch())).file
    stays = f"Brick veneer stays: its walls are not wrapped ({VENEER})"
    for recipe in ("exterior continuous", "hybrid"):
        assert stays in strategy_in_words(made[recipe], file)
    assert stays not in strategy_in_words(made["cavity-only"], file)


def test_walls_filled_already_are_the_reason_for_walls_without_fill():
    made = {each.recipe: each for each in make_strategies(read_project(json.dumps(ranch())))}
    file = read_project(json.dumps(ranch())).file
    filled = f"Filled already, so left as found: {VENEER}"
    assert filled in strategy_in_words(made["cavity-only"], file)
    assert filled not in strategy_in_words(made["hybrid"], file)


@pytest.mark.parametrize("recipe", RECIPES)
def test_walls_that_are_wrapped_or_filled_need_no_reason(recipe):
    found = project(WHOLE)
    told = strategy_in_words(make_strategy(found, recipe), found.file)
    assert not any("stays:" in each or "already" in each for each in told)
