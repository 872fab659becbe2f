"""Items of single changes, each worked out by hand."""

import json
from collections import Counter

import pytest
from hypothesis import given, settings

from server.files.building import read_project
from server.files.house_file import StrategyEntry
from server.pricing.carbon import embodied_carbon, years_to_repay
from server.pricing.growth import wall_growth
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from server.recipes.making import make_strategies
from tests.recipes.houses import (
    BOARDS,
    CEILING,
    FLOOR,
    GABLE,
    PLASTER,
    SIDING,
    SLAB,
    WALL,
    WHOLE,
    bays,
    part,
    project,
    solid,
)
from tests.recipes.test_making import houses


def own(found, **keys):
    entry = StrategyEntry.model_validate({"name": "one", "recipe": "own"} | keys)
    return take_off(found, entry)


def steps(items):
    return {item.step for item in items}


def only(items, step):
    (item,) = [item for item in items if item.step is step]
    return item


JOB = {Step.SET_UP, Step.PERMITS}


def test_nothing_done_takes_nothing():
    assert own(project(WHOLE)) == ()


def test_a_part_that_stays_has_no_item():
    found = project(WHOLE)
    items = own(
        found, changes={"wall of studs": "wall of studs as found", "gable": "gable as found"}
    )
    assert items == ()


def test_attic_fill_only_what_is_added():
    """200 ft2, a quarter joists 5 1/2 in deep, 3 in found, 14 in after: 2.5 between, 8.5 above."""
    items = own(project([CEILING]), changes={"ceiling": {"fill_thickness": "14 in"}})
    assert steps(items) == JOB | {Step.NEW_FILL}
    blown = only(items, Step.NEW_FILL)
    assert blown.material == "cellulose loose fill"
    assert blown.quantity_in("board foot") == pytest.approx(200 * (0.75 * 2.5 + 8.5))


def test_another_fill_takes_the_old_one_out():
    change = {"fill": "mineral wool loose fill", "fill_thickness": "10 in"}
    items = own(project([CEILING]), changes={"ceiling": change})
    assert only(items, Step.TAKE_OUT_FILL).quantity_in("ft2") == pytest.approx(150.0)
    assert only(items, Step.DISPOSAL).material == "cellulose loose fill"
    volume = only(items, Step.NEW_FILL).quantity_in("board foot")
    assert volume == pytest.approx(200 * (0.75 * 5.5 + 4.5))


def test_batts_in_joists_that_nobody_described():
    framed = bays("mineral wool batt", "9 1/4 in", fill_thickness="5 1/2 in", open=True)
    items = own(project([FLOOR]), changes={"floor": {"outside": [framed]}})
    assert steps(items) == JOB | {Step.NEW_BATTS}
    volume = only(items, Step.NEW_BATTS).quantity_in("board foot")
    assert volume == pytest.approx(200 * 0.75 * 5.5)


def test_a_new_frame_beside_an_old_one_is_bought():
    change = {"inside": [solid("gypsum board"), bays("mineral wool batt")]}
    found = project([WALL])
    items = own(found, changes={"wall": change})
    assert steps(items) == JOB | {Step.NEW_FRAMING, Step.NEW_BATTS, Step.NEW_LINING}
    assert only(items, Step.NEW_FRAMING).quantity_in("board foot") == pytest.approx(
        200 * 0.25 * 3.5
    )
    growth = wall_growth(
        found.file,
        found.file.components[0],
        StrategyEntry.model_validate(
            {"name": "one", "recipe": "own", "changes": {"wall": change}}
        ).changes["wall"],
    )
    assert growth.inward == pytest.approx(4.0 * 0.0254)
    assert growth.outward == 0.0


def test_asbestos_goes_by_those_licensed_without_other_disposal():
    shingle = solid("asbestos-cement shingle", "3/16 in", name="old siding")
    wall = WALL | {"layers": [PLASTER, bays(), BOARDS, shingle]}
    items = own(project([wall]), changes={"wall": {"remove": ["old siding"]}})
    assert steps(items) == JOB | {Step.TAKE_OFF_ASBESTOS, Step.SCAFFOLD}


def test_another_construction_is_what_differs():
    found = project([WALL, GABLE])
    content = found.file.as_written()
    content["assemblies"]["wrapped"] = {
        "layers": [
            PLASTER,
            bays("mineral wool batt"),
            BOARDS,
            solid("rigid mineral wool board", "2 in"),
            SIDING | {"name": "new siding"},
        ]
    }
    again = read_project(json.dumps(content))
    items = own(again, changes={"wall of studs": "wrapped"})
    assert Counter(item.step for item in items) == Counter(
        [
            Step.TAKE_OFF_CLADDING,
            Step.DISPOSAL,
            Step.NEW_BATTS,
            Step.NEW_BOARD,
            Step.NEW_CLADDING,
            Step.SCAFFOLD,
            Step.SET_UP,
            Step.PERMITS,
        ]
    )


def test_a_construction_of_which_only_u_is_known_is_not_free():
    content = project([WALL]).file.as_written()
    content["assemblies"]["panel"] = {"u_value": "0.3 W/(m^2*K)"}
    items = own(read_project(json.dumps(content)), changes={"wall": "panel"})
    assert Step.BUILD_ANEW in steps(items)
    assert Step.TAKE_OFF_CLADDING in steps(items)


def test_windows_whose_u_changes():
    """46 ft2 at 15 ft2 are four; the same U again is nothing; SHGC alone is sun control."""
    keys = {"u_value": "2 W/(m^2*K)", "shgc": 0.5, "area": "46 ft^2"}
    window = part("windows", "window", ("indoors", "outdoors"), [], **keys)
    found = project([WALL, window])
    new = only(own(found, openings={"windows": {"u_value": "1 W/(m^2*K)"}}), Step.NEW_WINDOW)
    assert (new.quantity, new.unit, new.estimated) == (4.0, "opening", True)
    assert own(found, openings={"windows": {"u_value": "2 W/(m^2*K)"}}) == ()
    film = own(found, openings={"windows": {"shgc": 0.3}})
    assert only(film, Step.SUN_CONTROL).quantity_in("ft2") == pytest.approx(46.0)


def test_slab_edge():
    """34 ft of edge, 2 ft deep, 2 in thick: 136 board feet."""
    edge = {"resistance": "R-8", "depth": "2 ft", "thickness": "2 in"}
    items = own(project([WALL, SLAB]), edge_insulation={"sun-room slab": edge})
    assert only(items, Step.EDGE_TRENCH).quantity_in("linear ft") == pytest.approx(34.0)
    assert only(items, Step.EDGE_BOARD).quantity_in("board foot") == pytest.approx(136.0)


def test_air_sealing_by_what_it_takes_off():
    """10 000 ft3: 12 an hour are 2000 cfm. With the attic inside 12 500 ft3, 6 are 1250 cfm."""
    found = project(WHOLE, air={"ach50": 12})
    items = own(found, ach50=6)
    assert only(items, Step.AIR_SEALING).quantity == pytest.approx(10.0)
    assert only(items, Step.BLOWER_DOOR_TEST).quantity == 2.0
    inside = own(found, ach50=6, inside=["attic"])
    assert only(inside, Step.AIR_SEALING).quantity == pytest.approx(7.5)
    assert only(inside, Step.CLOSE_VENTS).quantity == 1.0
    assert Step.AIR_SEALING not in steps(own(found, ach50=13))


def test_air_sealing_by_floor_area_where_no_test_is_known():
    found = project(WHOLE, air={"air_changes": "0.8 1/hour"})
    items = own(found, air_changes="0.4 1/hour")
    assert only(items, Step.AIR_SEALING_BY_AREA).quantity_in("ft2") == pytest.approx(1600.0)


def test_one_test_where_one_was_made():
    found = project(WHOLE, air={"ach50": {"value": 12, "basis": "measured"}})
    assert only(own(found, ach50=6), Step.BLOWER_DOOR_TEST).quantity == 1.0


def test_ventilation_and_equipment():
    fan = {"flow": "80 cfm", "heat_recovery": 0.7}
    heat_pump = {"fuel": "electricity", "efficiency": 3.0}
    items = own(project(WHOLE), ventilation=fan, heating=heat_pump, cooling=heat_pump)
    wanted = {Step.RECOVERY_VENTILATION, Step.NEW_HEATING, Step.NEW_COOLING}
    assert steps(items) == JOB | wanted
    ducts = {"fuel": "natural gas", "efficiency": 0.8, "distribution": 0.95}
    assert own(project(WHOLE), heating=ducts) == ()


def test_embodied_carbon_by_hand():
    """200 ft2 of gypsum board 1/2 in thick at 640 kg/m3 and 0.39 kg/kg; an unknown beside it."""
    change = {"inside": [solid("gypsum board"), solid("clay of the garden", "1 in")]}
    own_material = {"clay of the garden": {"conductivity": "0.8 W/(m*K)"}}
    found = project([WALL], materials=own_material)
    embodied = embodied_carbon(own(found, changes={"wall": change}))
    assert embodied.kg == pytest.approx(200 * 0.3048**2 * 0.0127 * 640 * 0.39)
    assert [item.material for item in embodied.without_figures] == ["clay of the garden"]
    assert years_to_repay(embodied, 100.0) == pytest.approx(embodied.kg / 100.0)
    assert years_to_repay(embodied, 0.0) is None


# A step that a component has at most once, whatever is done to it.
ONCE = frozenset({Step.DRILL_INSIDE, Step.DRILL_OUTSIDE, Step.BUILD_ANEW, Step.EDGE_TRENCH})


@settings(deadline=None, max_examples=15)
@given(houses())
def test_nothing_is_counted_twice_in_any_house(content):
    found = read_project(json.dumps(content))
    for made in make_strategies(found):
        items = take_off(found, made)
        for (component, step), count in Counter((i.component, i.step) for i in items).items():
            assert component is not None or count == 1 or step is Step.CLOSE_VENTS
            assert step not in ONCE or count == 1
        whole = Counter(item.component for item in items)
        openings = {part.name for part in found.file.components if part.kind in ("window", "door")}
        touched = set(made.changes) | set(made.edge_insulation or {}) | openings | {None}
        assert set(whole) <= touched
        assert all(item.quantity > 0.0 for item in items)
