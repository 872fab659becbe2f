"""A section's geometry: to scale, labels apart, lines from warm to cold; every material a hatch."""

import itertools

import pytest

from server.core.assembly import AirLayer, FramedLayer, ResistanceLayer, SolidLayer, Ventilation
from server.core.films import HeatFlow
from server.core.materials import Material
from server.core.temperature_line import Route, interface_temperatures, route_steps
from server.drawings.section import MARGIN, SPACING, WIDTH, TemperatureRoute, section
from server.files.seeds import material_rows
from server.pages.house.section_view import hatch_of

WOOD, WOOL, BOARD = Material("wood", 0.13), Material("wool", 0.036), Material("board", 0.2)
WALL = (
    SolidLayer(BOARD, 0.0125),
    FramedLayer(WOOD, 0.25, 0.14, WOOL, fill_thickness=0.09),
    SolidLayer(BOARD, 0.0006),
    SolidLayer(BOARD, 0.0006),
    SolidLayer(WOOL, 0.1),
    AirLayer(Ventilation.WELL, 0.02),
    SolidLayer(WOOD, 0.0125),
)
HATCHES = {"wood": "wood", "wool": "batt", "board": "stipple"}


def drawn(layers=WALL, inside=20.0, outside=-10.0):
    routes = []
    for route in Route:
        steps = route_steps(layers, route, HeatFlow.LEVEL, 0.13, 0.04)
        temperatures = interface_temperatures(steps, inside, outside)
        routes.append(TemperatureRoute(route, steps, temperatures))
    return section(layers, HATCHES.__getitem__, routes)


def test_layers_are_drawn_to_one_scale_side_by_side():
    cuts = drawn().cuts
    thicknesses = [0.0125, 0.14, 0.0006, 0.0006, 0.1, 0.02, 0.0125]
    scales = [cut.width / thickness for cut, thickness in zip(cuts, thicknesses, strict=True)]
    assert scales == pytest.approx([scales[0]] * len(cuts))
    for cut, after in itertools.pairwise(cuts):
        assert cut.x + cut.width == pytest.approx(after.x)
    assert cuts[0].x >= MARGIN - 1e-9
    assert cuts[-1].x + cuts[-1].width <= WIDTH - MARGIN + 1e-9


def test_a_partly_filled_bay_shows_fill_air_and_framing():
    bay = drawn().cuts[1]
    assert [box.hatch for box in bay.boxes] == ["batt", "air"]
    assert bay.boxes[0].width / bay.width == pytest.approx(0.09 / 0.14)
    assert bay.boxes[0].stroke.startswith("M")
    assert bay.member.width == pytest.approx(bay.width)


def test_fill_over_an_open_floor_rises_above_the_framing():
    attic = FramedLayer(WOOD, 0.10, 0.14, WOOL, fill_thickness=0.28, open=True)
    (cut,) = drawn((attic,)).cuts
    assert cut.member.width == pytest.approx(cut.width / 2)
    assert [box.hatch for box in cut.boxes] == ["batt"]


def test_framing_in_line_is_drawn_in_line_and_crossing_is_not():
    bay = FramedLayer(WOOD, 0.25, 0.09, WOOL)
    aligned = FramedLayer(WOOD, 0.25, 0.05, WOOL, aligned=True)
    crossing = FramedLayer(WOOD, 0.10, 0.02)
    members = [cut.member.y for cut in drawn((bay, aligned, crossing)).cuts]
    assert members[0] == members[1] != members[2]


def test_what_is_only_a_resistance_is_drawn_as_not_known():
    (cut,) = drawn((ResistanceLayer(1.0),)).cuts
    assert cut.width > 0.0
    assert [box.hatch for box in cut.boxes] == ["unknown"]


def test_labels_stand_apart_and_inside_the_drawing():
    places = [cut.label_x for cut in drawn().cuts]
    gaps = [after - before for before, after in itertools.pairwise(places)]
    assert min(gaps) >= SPACING - 1e-9
    assert places[0] >= 0.0
    assert places[-1] <= WIDTH


def test_lines_fall_from_left_to_right():
    picture = drawn()
    assert [line.route for line in picture.lines] == ["fill", "framing"]
    for line in picture.lines:
        for (x, y), (next_x, next_y) in itertools.pairwise(line.points):
            assert next_x >= x - 1e-9
            assert next_y >= y - 1e-9
        assert line.points[0][0] < picture.left
        assert line.points[-1][0] == pytest.approx(picture.right)
    top, bottom = picture.lines[0].points[0][1], picture.lines[0].points[-1][1]
    assert picture.freezing == pytest.approx(top + (bottom - top) * 20 / 30)


def test_no_freezing_point_where_nothing_freezes():
    assert drawn(outside=5.0).freezing is None


@pytest.mark.parametrize("row", material_rows(), ids=lambda row: row.name)
def test_every_material_has_a_hatch(row):
    assert hatch_of(row.name) != "unknown"


@pytest.mark.parametrize(
    ("material", "hatch"),
    [
        ("glass fibre batt", "batt"),
        ("dense-pack cellulose", "blown"),
        ("rigid mineral wool board", "board"),
        ("wood-wool cement board", "board"),
        ("old soft brick", "masonry"),
        ("brick veneer", "masonry"),
        ("softwood board sheathing", "wood"),
        ("concrete", "stipple"),
        ("stucco", "stipple"),
        ("metal roofing sheet", "solid"),
        ("something of the house's own", "unknown"),
    ],
)
def test_hatches_of_the_trade(material, hatch):
    assert hatch_of(material) == hatch
