"""Each caution by what asks for it, and its silence without."""

import pytest

from server.crew.before import conditions_of
from server.crew.cautions import (
    CODES,
    LEAD_PAINT_BANNED,
    Setting,
    caution_words,
    working_cautions,
)
from server.crew.handled import cautions_of
from server.files.building import Project
from server.files.house_file import StrategyEntry
from server.files.material_groups import group_of
from server.pricing.layer_work import layer_works
from server.pricing.takeoff import take_off
from tests.recipes.houses import (
    CEILING,
    DEEP,
    FLOORING,
    WALL,
    WHOLE,
    bays,
    part,
    project,
    solid,
)

NEW = 1995


def cautions(*materials, groups=None, year=NEW, conditions=()):
    known = groups or {group for each in materials if (group := group_of(each))}
    return set(working_cautions(materials, known, year, conditions))


# A code; what makes it sound alone (materials, year, conditions); what is near it and does not.
TABLE = [
    ("asbestos", (["asbestos-cement shingle"], NEW, []), (["fibre-cement siding"], NEW, [])),
    ("asbestos", (["vermiculite loose fill"], NEW, []), (["perlite loose fill"], NEW, [])),
    ("asbestos", ([], NEW, ["asbestos suspected"]), ([], NEW, ["no asbestos, tested"])),
    (
        "lead",
        (["wood lap siding"], LEAD_PAINT_BANNED - 1, []),
        (["wood lap siding"], LEAD_PAINT_BANNED, []),
    ),
    ("lead", (["wood lap siding"], None, []), (["dense-pack cellulose"], None, [])),
    ("lead", (["plywood"], NEW, ["lead paint found"]), (["plywood"], NEW, [])),
    (
        "lead",
        (["plywood"], NEW, ["lead-based paint on the trim"]),
        (["plywood"], NEW, ["lead roof"]),
    ),
    (
        "lead",
        (["wood lap siding"], 1938, ["chimney has no lead flashing"]),
        (["wood lap siding"], NEW, ["ground too flat to lead water away"]),
    ),
    (
        "lead",
        (["wood lap siding"], 1938, ["downspouts do not lead water away"]),
        (["wood lap siding"], NEW, ["lead flashing at the chimney"]),
    ),
    (
        "old wiring",
        ([], NEW, ["knob-and-tube wiring seen"]),
        ([], NEW, ["never any knob-and-tube"]),
    ),
    ("lines in bays", (["dense-pack cellulose"], NEW, []), (["cellulose loose fill"], NEW, [])),
    ("fibre", (["mineral wool batt"], NEW, []), (["expanded polystyrene"], NEW, [])),
    ("fibre", (["rigid mineral wool board"], NEW, []), (["plywood"], NEW, [])),
    ("blowing", (["cellulose loose fill"], NEW, []), (["mineral wool batt"], NEW, [])),
    ("sprayed foam", (["open-cell sprayed foam"], NEW, []), (["expanded polystyrene"], NEW, [])),
    ("sealant foam", (["polyurethane sealant foam"], NEW, []), (["silicone sealant"], NEW, [])),
    ("foam board", (["expanded polystyrene"], NEW, []), (["rigid mineral wool board"], NEW, [])),
    ("silica", (["fibre-cement siding"], NEW, []), (["wood lap siding"], NEW, [])),
    ("silica", (["old soft brick"], NEW, []), (["gypsum board"], NEW, [])),
    ("heights", (["asphalt shingle"], NEW, []), (["mineral wool batt"], NEW, [])),
    ("attic heat", (["cellulose loose fill"], NEW, []), (["wood lap siding"], NEW, [])),
]


BY_SETTING = {"excavation", "crawlspace"}


@pytest.mark.parametrize(("code", "fires", "silent"), TABLE)
def test_each_fires_and_is_silent(code, fires, silent):
    materials, year, conditions = fires
    assert code in cautions(*materials, year=year, conditions=conditions)
    materials, year, conditions = silent
    assert code not in cautions(*materials, year=year, conditions=conditions)


def test_every_caution_is_tried_and_has_words():
    assert {code for code, _fires, _silent in TABLE} | BY_SETTING == set(CODES)
    words = [caution_words(code) for code in CODES]
    assert len(set(words)) == len(CODES)
    assert all(each.endswith(".") for each in words)


def test_only_a_test_of_the_house_clears_its_paint():
    noted = ["no lead paint here"]
    assert "lead" in cautions("wood lap siding", year=1938, conditions=noted)
    told = working_cautions(
        ["wood lap siding"], ["cladding"], 1938, [], Setting(paint_cleared=True)
    )
    assert "lead" not in told


def test_nothing_handled_in_a_sound_new_house_asks_for_nothing():
    assert working_cautions([], [], NEW, ["sound", "dry"]) == ()


def test_the_gravest_stand_first():
    told = working_cautions(
        ["cellulose loose fill", "wood lap siding"],
        ["loose-fill", "cladding"],
        1938,
        ["vermiculite, not tested"],
    )
    assert told[:2] == ("asbestos", "lead")
    assert list(told) == [code for code in CODES if code in told]


def of_strategy(found: Project, **keys):
    entry = StrategyEntry.model_validate({"name": "one", "recipe": "own"} | keys)
    works = layer_works(found.file, entry)
    return set(cautions_of(found, works, take_off(found, entry)))


def test_a_strategy_that_does_nothing_asks_for_nothing():
    assert of_strategy(project([WALL])) == set()


def test_drilling_goes_through_old_paint_that_no_item_names():
    """The siding of 1938 stays; only fill is bought."""
    told = of_strategy(project([WALL]), changes={"wall": {"fill": "dense-pack cellulose"}})
    assert told >= {"lead", "lines in bays", "fibre", "blowing", "heights"}
    blown = {"fill": "cellulose loose fill", "fill_thickness": "14 in"}
    told = of_strategy(project([CEILING]), changes={"ceiling": blown})
    assert {"lead", "lines in bays"}.isdisjoint(told)


def test_air_sealing_takes_foam_from_a_can():
    assert "sealant foam" in of_strategy(project([WALL]), ach50=5)


def test_what_was_seen_in_the_house_counts():
    found = project([WALL], seen={"asbestos": "suspected", "wiring": "modern"})
    told = of_strategy(found, ach50=5)
    assert "asbestos" in told
    assert "old wiring" not in told
    assert ("asbestos suspected", None) in conditions_of(found.file)


def test_lead_paint_that_nobody_works_at_is_left_out():
    painted = project([WALL | {"condition": ["lead paint likely"]}, CEILING])
    blown = {"fill": "cellulose loose fill", "fill_thickness": "14 in"}
    assert "lead" not in of_strategy(painted, changes={"ceiling": blown})
    assert "lead" in of_strategy(painted, changes={"wall": {"fill": "dense-pack cellulose"}})


def test_a_test_answers_what_notes_guess_but_not_what_they_found():
    filled = {"changes": {"wall": {"fill": "dense-pack cellulose"}}}

    def told(words, answer):
        noted = WALL | {"condition": [words]}
        return of_strategy(project([noted], seen={"lead_paint": answer}), **filled)

    assert "lead" not in told("lead paint likely", "tested, none")
    assert "lead" in told("lead paint found on the sill", "tested, none")
    assert "lead" in told("lead paint: none", None)


def test_ground_that_is_level_is_no_lead_paint():
    found = project([WALL], year_built=2010, seen={"ground_slope": "level"})
    told = of_strategy(found, changes={"wall": {"fill": "dense-pack cellulose"}})
    assert "lead" not in told
    assert "lines in bays" in told


def test_digging_outside_a_basement_wall_and_none_inside():
    board = {"outside": [solid("expanded polystyrene", "2 in")]}
    assert "excavation" in of_strategy(project(WHOLE), changes={"basement wall": board})
    board = {"inside": board["outside"]}
    told = of_strategy(project(WHOLE), changes={"basement wall": board})
    assert "excavation" not in told
    assert "foam board" in told


def test_a_trench_at_a_slab_is_dug():
    edge = {"resistance": "R-8", "depth": "2 ft", "thickness": "2 in"}
    assert "excavation" in of_strategy(project(WHOLE), edge_insulation={"sun-room slab": edge})
    assert "excavation" not in of_strategy(project(WHOLE), ach50=5)


def over(floor, space="crawlspace"):
    """A house whose floor lies open over a space."""
    joists = bays("air", "9 1/4 in", open=True)
    above = part("floor", "floor", ("indoors", space), [FLOORING, joists], access="open")
    ground = part("ground", "basement floor", (space, "ground"), floor, **DEEP)
    return [WALL, above, ground] if floor else [WALL, above]


FILL_FLOOR = {"changes": {"floor": {"fill": "mineral wool batt"}}}
EARTH = [solid("clay or silt soil", "4 in")]


@pytest.mark.parametrize(
    ("parts", "is_crawled"),
    [
        (over(EARTH), True),
        (over(EARTH, "low cellar"), True),
        (over([]), True),
        (over([], "cellar"), False),
        (over([], "garage below"), False),
        (over([solid("concrete", "3 in")]), False),
    ],
)
def test_somebody_who_fills_a_floor_over_earth_works_in_a_crawlspace(parts, is_crawled):
    assert ("crawlspace" in of_strategy(project(parts), **FILL_FLOOR)) == is_crawled


def test_nobody_crawls_where_the_work_is_elsewhere():
    filled = {"changes": {"wall": {"fill": "dense-pack cellulose"}}}
    assert "crawlspace" not in of_strategy(project(over(EARTH)), **filled)
    new_top = {"changes": {"floor": {"inside": [FLOORING]}}}
    assert "crawlspace" not in of_strategy(project(over(EARTH)), **new_top)
    bare = project(over(EARTH), seen={"crawl_ground_cover": "bare"})
    assert "crawlspace" in of_strategy(bare, **filled)


def test_nobody_is_warned_of_old_wiring_that_is_replaced_or_dead():
    noted = WALL | {"condition": ["knob-and-tube wiring seen"]}
    assert "old wiring" in of_strategy(project([noted], seen={"wiring": "modern"}), ach50=5)
    dead = project([noted], seen={"wiring": "replaced or dead"})
    assert "old wiring" not in of_strategy(dead, ach50=5)
