"""What a strategy changes, and what it refuses."""

from dataclasses import replace

import pytest

from server.core.air import BlowerDoor
from server.core.assembly import AirLayer, Assembly, FramedLayer, SolidLayer
from server.core.assembly import Ventilation as Gap
from server.core.errors import CoreError, FillDeeperThanBay, NothingToChange, SeveralFramedLayers
from server.core.evaluate import evaluate
from server.core.house import Component, FixedTransmittance, Kind, Plant, Space
from server.core.strategy import LayerChange, NewLeakage, OpeningChange, Strategy, apply
from tests.factories import GYPSUM, WOOD, WOOL, make_house, make_wall


def strategy(**changes):
    figures = {"name": "s", "recipe": "own", "changes": {}}
    return Strategy(**(figures | changes))


def house_with_attic():
    house = make_house()
    indoors, *rest = house.components[:-1], house.components[-1]
    roof = replace(rest[0], from_space="attic", construction=make_wall(None))
    ceiling = Component("ceiling", Kind.CEILING, "indoors", "attic", 90.0, make_wall())
    return replace(
        house,
        spaces=(*house.spaces, Space("attic", False, 100.0, 3.0)),
        components=(*indoors, roof, ceiling),
        heating=Plant("natural gas", 0.8, 0.75, ducts_in="attic"),
    )


def test_attic_that_comes_inside_brings_volume_and_loses_vents():
    house = house_with_attic()
    after = apply(strategy(inside=("attic",)), house)
    assert after.inside_volume == 350.0
    assert after.buffers == ()
    assert after.spaces[-1].air_changes == 0.0
    assert after.storeys == house.storeys


def test_leakage_area_is_kept_where_none_is_given():
    house = house_with_attic()
    after = apply(strategy(inside=("attic",)), house)
    assert after.leakage is house.leakage
    # the same flow in more volume: 0.6 m3/s * 3600 / 350 m3
    assert evaluate(after).air_changes_at_50_pa == pytest.approx(0.6 * 3600 / 350)


def test_ach50_refers_to_the_volume_after():
    after = apply(
        strategy(inside=("attic",), leakage=NewLeakage(air_changes_at_50_pa=3.5)),
        house_with_attic(),
    )
    assert isinstance(after.leakage, BlowerDoor)
    assert after.leakage.flow_at_50_pa == pytest.approx(3.5 * 350.0 / 3600.0)


def test_ducts_inside_lose_nothing():
    house = house_with_attic()
    found, after = evaluate(house), evaluate(apply(strategy(inside=("attic",)), house))
    assert found.fuels[0].energy_kwh == pytest.approx(found.heating_load_kwh / (0.8 * 0.75))
    assert after.fuels[0].energy_kwh == pytest.approx(after.heating_load_kwh / 0.8)


def test_ceiling_between_inside_spaces_keeps_its_u_and_carries_no_heat():
    after = evaluate(apply(strategy(inside=("attic",)), house_with_attic()))
    ceiling = after.components[-1]
    assert ceiling.u_value > 0.0
    assert ceiling.conductance == 0.0
    assert ceiling.heating_share_kwh == 0.0


def test_name_goes_before_kind():
    board = SolidLayer(WOOL, 0.1, name="board")
    changes = {
        "wall": LayerChange(outside=(board,)),
        "north wall": LayerChange(inside=(board, board)),
    }
    after = apply(strategy(changes=changes), make_house())
    layers = {part.name: part.construction.layers for part in after.components[:4]}
    assert layers["north wall"][:2] == (board, board)
    assert layers["south wall"][-1] is board
    assert layers["north wall"][-1] is not board


def test_fill_goes_into_the_bay_and_takes_its_label():
    empty = replace(make_house(), components=make_house().components)
    parts = [
        replace(part, construction=make_wall(None)) if part.kind is Kind.WALL else part
        for part in empty.components
    ]
    house = replace(empty, components=tuple(parts))
    change = LayerChange(fill=WOOL, fill_label=2.3)
    after = apply(strategy(changes={"wall": change}), house)
    filled = after.components[0].construction
    assert isinstance(filled, Assembly)
    assert filled.layers[1].fill is WOOL
    assert filled.label_resistance == 2.3


def test_ventilated_cladding_drops_out_and_hides_the_sun():
    gap = AirLayer(Gap.WELL, 0.019)
    siding = SolidLayer(WOOD, 0.0127)
    board = SolidLayer(WOOL, 0.1)
    change = LayerChange(outside=(board, gap, siding))
    house = make_house()
    after = evaluate(apply(strategy(changes={"wall": change}), house))
    wall = after.components[0]
    # films 0.13 both sides, and neither gap nor siding: only the board came on
    found = evaluate(house).components[0]
    assert wall.limits.lower == pytest.approx(found.limits.lower + 0.09 + 0.1 / 0.036)
    assert wall.component.construction.stands_off


def test_openings_change_their_figures():
    after = apply(
        strategy(openings={"south window": OpeningChange(u_value=1.2, shgc=0.3)}), make_house()
    )
    window = next(part for part in after.components if part.name == "south window")
    assert isinstance(window.construction, FixedTransmittance)
    assert (window.construction.u_value, window.shgc) == (1.2, 0.3)


NOTHING = [
    (strategy(changes={"cellar wall": LayerChange(fill=WOOL)}), "changes['cellar wall']"),
    (strategy(changes={"ceiling": LayerChange(fill=WOOL)}), "changes['ceiling']"),
    (
        strategy(changes={"wall": LayerChange(remove=("siding",))}),
        "changes['wall'].remove[0]",
    ),
    (strategy(changes={"window": LayerChange(fill=WOOL)}), "changes['window']"),
    (strategy(inside=("attic",)), "inside[0]"),
    (strategy(inside=("indoors",)), "inside[0]"),
    (strategy(psi={"sill": 0.1}), "psi['sill']"),
    (strategy(openings={"north wall": OpeningChange(u_value=1.0)}), "openings['north wall']"),
    (strategy(air_changes={"attic": 1.0}), "spaces['attic']"),
]


@pytest.mark.parametrize(("wanted", "place"), NOTHING)
def test_a_change_that_finds_nothing_is_refused_at_its_place(wanted, place):
    with pytest.raises(NothingToChange) as refusal:
        apply(wanted, make_house())
    assert refusal.value.field == place


def test_fill_among_two_full_bays_is_refused():
    bay = FramedLayer(framing=WOOD, fraction=0.25, depth=0.1, fill=WOOL)
    double = Assembly("double", (SolidLayer(GYPSUM, 0.01), bay, bay))
    house = make_house()
    parts = [replace(part, construction=double) for part in house.components[:1]]
    house = replace(house, components=(*parts, *house.components[1:]))
    with pytest.raises(SeveralFramedLayers):
        apply(strategy(changes={"north wall": LayerChange(fill=WOOL)}), house)


def test_more_fill_than_a_closed_bay_holds_is_refused_at_its_place():
    change = LayerChange(fill=WOOL, fill_thickness=0.3)
    with pytest.raises(FillDeeperThanBay) as refusal:
        apply(strategy(changes={"wall": change}), make_house())
    assert refusal.value.field == "changes['wall'].fill_thickness"


def test_every_core_error_has_a_code_of_its_own():
    def below(kind):
        return [kind, *(leaf for child in kind.__subclasses__() for leaf in below(child))]

    codes = [kind.code for kind in below(CoreError)]
    assert len(codes) == len(set(codes))
