"""A wall of 10 ft by 8 ft, wrapped: every quantity and every cent worked out here."""

import pytest

from server.files.house_file import StrategyEntry
from server.pricing.estimate import payback, price
from server.pricing.growth import WallGrowth, wall_growth
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from tests.pricing.books import book, line
from tests.recipes.houses import WALL, part, project

BOARD = {"material": "rigid mineral wool board", "thickness": "2 in"}
CHANGE = {
    "remove": ["old siding"],
    "outside": [
        {"material": "self-adhered membrane, vapour-open", "thickness": "0.6 mm"},
        BOARD | {"name": "inner board"},
        BOARD | {"name": "outer board"},
        {"air_layer": "well ventilated", "thickness": "3/4 in"},
        {"material": "wood lap siding", "thickness": "1/2 in", "name": "new siding"},
    ],
}
BOOK = book(
    line("take off cladding", "ft2", "0", "145", reason="only because of insulation"),
    line("disposal", "ft2", "22", "16.5"),
    line("self-adhered membrane, vapour-open", "ft2", "98", "112"),
    line("rigid mineral wool board", "board foot", "82", "48"),
    line("furring strips", "linear ft", "62.5", "98", reason="only because of insulation"),
    line("wood lap siding", "ft2", "465", "590", 60000, reason="due anyway"),
    line("scaffold", "lump sum", "0", "99900"),
    line("set-up", "lump sum", "5000", "20000"),
    line("permits", "lump sum", "30000", "0"),
)


def house(*others, storeys=1):
    wall = WALL | {"area": "80 ft^2"}
    return project([wall, *others], storeys=storeys)


def strategy(**keys):
    content = {"name": "wrap", "recipe": "own", "changes": {"wall of studs": CHANGE}} | keys
    return StrategyEntry.model_validate(content)


def items_by_step(found, made):
    items = take_off(found, made)
    return {step: [item for item in items if item.step is step] for step in Step}


def test_quantities():
    """80 ft2: 2 boards of 80 x 2 in = 320 board ft; strips 80 ft2 / (16/12 ft) = 60 ft."""
    items = items_by_step(house(), strategy())
    told = {
        step: [(item.unit, pytest.approx(item.quantity_in(item.unit))) for item in each]
        for step, each in items.items()
        if each
    }
    assert told == {
        Step.TAKE_OFF_CLADDING: [("ft2", 80.0)],
        Step.DISPOSAL: [("ft2", 80.0)],
        Step.NEW_MEMBRANE: [("ft2", 80.0)],
        Step.NEW_BOARD: [("board foot", 160.0), ("board foot", 160.0)],
        Step.FURRING: [("linear ft", 60.0)],
        Step.NEW_CLADDING: [("ft2", 80.0)],
        Step.SET_UP: [("lump sum", 1.0)],
        Step.PERMITS: [("lump sum", 1.0)],
    }
    assert items[Step.TAKE_OFF_CLADDING][0].quantity == pytest.approx(80 * 0.3048**2)
    assert items[Step.NEW_BOARD][0].quantity == pytest.approx(80 * 0.3048**2 * 2 * 0.0254)
    assert items[Step.FURRING][0].thickness == pytest.approx(0.75 * 0.0254)


def test_cents():
    estimate = price(take_off(house(), strategy()), BOOK)
    assert estimate.unpriced == ()
    by_hand = {
        "take-off-cladding": (0, 80 * 145),
        "disposal": (80 * 22, 1320),  # 80 x 16.5
        "self-adhered-membrane,-vapour-open": (80 * 98, 80 * 112),
        "rigid-mineral-wool-board": (320 * 82, 320 * 48),
        "furring-strips": (3750, 60 * 98),  # 60 x 62.5
        "wood-lap-siding": (80 * 465, 80 * 590),
        "set-up": (5000, 20000),
        "permits": (30000, 0),
    }
    told = {each.price_key: (each.material_cents, each.labour_cents) for each in estimate.lines}
    assert told == by_hand
    assert estimate.total_cents == sum(map(sum, by_hand.values())) == 222_110
    assert estimate.cents_by_reason == {
        "due anyway": 84_400,
        "only because of insulation": 11_600 + 9_630,
        "insulation": 222_110 - 84_400 - 21_230,
    }
    assert not any(each.minimum_applied for each in estimate.lines)
    years = payback(estimate, 10_000)
    assert years.whole_years == pytest.approx(22.211)
    assert years.extra_years == pytest.approx((222_110 - 84_400) / 10_000)
    assert payback(estimate, 0).whole_years is None
    assert payback(estimate, -5).extra_years is None


def test_scaffold_only_where_it_is_high():
    assert items_by_step(house(), strategy())[Step.SCAFFOLD] == []
    (item,) = items_by_step(house(storeys=1.5), strategy())[Step.SCAFFOLD]
    assert (item.quantity, item.unit) == (1.0, "lump sum")


def test_jambs_in_the_wrapped_wall_only():
    """46 ft2 of windows at 15 ft2 are 4; a door of 20 ft2 is one; the north wall stays."""
    walls = {"azimuth": "180 deg"}
    keys = {"u_value": "2 W/(m^2*K)"}
    south = part("south windows", "window", ("indoors", "outdoors"), [], area="46 ft^2", **keys)
    north = part("north windows", "window", ("indoors", "outdoors"), [], area="60 ft^2", **keys)
    door = part("door", "door", ("indoors", "outdoors"), [], area="20 ft^2", **keys)
    windows = [
        south | walls | {"shgc": 0.5},
        north | {"azimuth": "0 deg", "shgc": 0.5},
        door | walls,
    ]
    north_wall = WALL | {"name": "north wall", "azimuth": "0 deg"}
    found = project([WALL | walls | {"area": "80 ft^2"}, north_wall, *windows], storeys=1)
    jambs = items_by_step(found, strategy())[Step.JAMB_EXTENSION]
    assert [(item.component, item.quantity) for item in jambs] == [
        ("south windows", 4.0),
        ("door", 1.0),
    ]
    assert all(item.estimated and "estimated" in item.words for item in jambs)


def test_no_drilling_where_the_siding_comes_off():
    fill = {"fill": "dense-pack cellulose"}
    wrapped = items_by_step(house(), strategy(changes={"wall of studs": CHANGE | fill}))
    assert not wrapped[Step.DRILL_OUTSIDE]
    assert not wrapped[Step.DRILL_INSIDE]
    filled = items_by_step(house(), strategy(changes={"wall of studs": fill}))
    assert filled[Step.DRILL_OUTSIDE][0].quantity_in("ft2") == pytest.approx(80.0)
    assert not filled[Step.DRILL_INSIDE]
    # 80 ft2, a quarter of it studs, 3 1/2 in deep
    (blown,) = filled[Step.NEW_FILL]
    assert blown.quantity_in("board foot") == pytest.approx(80 * 0.75 * 3.5)


def test_from_inside_where_it_is_reached_from_there():
    wall = WALL | {"reached_from": "inside"}
    fill = strategy(changes={"wall": {"fill": "dense-pack cellulose"}})
    steps = [item.step for item in take_off(project([wall]), fill)]
    assert Step.DRILL_INSIDE in steps
    assert Step.DRILL_OUTSIDE not in steps


def test_growth():
    """Outward 0.6 mm + 4 in + 3/4 in + 1/2 in less the old 1/2 in; nothing inward."""
    file = house().file
    growth = wall_growth(file, file.components[0], strategy().changes["wall of studs"])
    assert growth.outward == pytest.approx(0.0006 + 4.75 * 0.0254)
    assert growth.inward == 0.0
    assert wall_growth(file, file.components[0], None) == WallGrowth(0.0, 0.0)
