"""Every figure follows from the formula and the inputs that explain it."""

from dataclasses import replace

import pytest

from server.core.assembly import (
    AirLayer,
    Assembly,
    FramedLayer,
    SolidLayer,
    Ventilation,
    total_resistance,
)
from server.core.design_load import cooling_load, heating_load
from server.core.explain import design, graph, months, outage, parts, shares, sun, year
from server.core.explain.base import SUM
from server.core.explain.layers import layer_working
from server.core.house import GROUND_KINDS
from server.core.materials import Material
from server.core.parts import PARTS
from server.core.power_cut import COOL_LIMITS, WARM_LIMITS, power_cut
from server.core.transmittance import films_of
from server.explaining.words import formula_words, quantity_words
from tests.calculator import worked_out
from tests.factories import make_house


@pytest.fixture(scope="module")
def results(demo, small_house):
    return [*demo.compare().all_results, *small_house.compare().all_results]


def rebuilt(formula, inputs):
    values = {each.symbol: float(each.value) for each in inputs}
    assert len(values) == len(inputs), "one symbol for two inputs"
    if formula.expression == SUM:
        return sum(values.values())
    return worked_out(formula.expression, formula.where, values)


def explanations(result):
    yield year.heating_need(result), result.heating_load_kwh
    yield year.cooling_need(result), result.cooling_load_kwh
    yield year.latent_need(result), result.latent_load_kwh
    for use in result.fuels:
        yield year.fuel(result, use.use, use.fuel), use.energy_kwh
    yield year.annual_cost(result), result.annual_cost
    yield year.carbon(result), result.carbon
    yield graph.to_outdoors(result), result.to_outdoors
    yield graph.to_ground(result), result.to_ground
    yield year.mean_air(result), result.air
    yield sun.led_out(result), result.working.sources.led_out
    load, cool = heating_load(result), cooling_load(result)
    yield design.heating(result), load.total
    yield design.heating_plant(result), load.on_equipment
    yield design.cooling(result), cool.sensible
    yield design.latent(result), cool.latent
    yield design.cooling_plant(result), cool.on_equipment
    cut = power_cut(result)
    for drift, limit, winter in (
        (cut.winter_design, COOL_LIMITS[0], True),
        (cut.summer_design, WARM_LIMITS[0], False),
    ):
        explained = outage.hours(result, drift, limit, winter=winter)
        if explained is not None:
            yield explained, drift.hours_above(limit) if winter else drift.hours_below(limit)
    if result.air_changes_at_50_pa is not None:
        yield year.air_changes_at_50_pa(result), result.air_changes_at_50_pa
    for name, explained in shares.heat_of_ways(result).items():
        yield explained, explained.value
        assert name


def test_every_yearly_figure_can_be_rebuilt(results):
    for result in results:
        for explained, figure in explanations(result):
            assert explained.value == pytest.approx(figure, rel=1e-12)
            assert rebuilt(explained.formula, explained.inputs) == pytest.approx(figure, rel=1e-9)


def test_parts_of_the_house_sum_to_the_heating_need_and_say_their_share(results):
    for result in results:
        told = [year.heat_of_part(result, part) for part in PARTS]
        assert sum(each.value for each in told) == pytest.approx(result.heating_load_kwh)
        assert sum(each.share for each in told) == pytest.approx(1.0)
        for each in told:
            assert rebuilt(each.formula, each.inputs) == pytest.approx(each.value, abs=1e-9)


def tables(result):
    yield months.heating_columns(result)
    yield months.cooling_columns(result)
    yield shares.share_columns(result)
    yield graph.buffers(result)
    inner = sun.led_out_table(result)
    for table in design.design_tables(result):
        yield table.columns
    for table in (*parts.part_tables(result), *sun.aperture_tables(result), inner):
        yield table.columns


def test_every_column_can_be_rebuilt_from_the_others(results):
    made = 0
    for result in results:
        for columns in tables(result):
            symbols = [column.symbol for column in columns]
            assert len(set(symbols)) == len(symbols)
            for column in (each for each in columns if each.formula is not None):
                for row, figure in enumerate(column.values):
                    others = {
                        each.symbol: float(each.values[row])
                        for each in columns
                        if each.values[row] is not None
                    }
                    del others[column.symbol]
                    values = others | {each.symbol: float(each.value) for each in column.inputs}
                    again = worked_out(column.formula.expression, column.formula.where, values)
                    assert again == pytest.approx(figure, rel=1e-9, abs=1e-9), column.symbol
                    made += 1
    assert made > 1000


def test_the_months_sun_is_what_the_apertures_collect(results):
    for result in results:
        planes = {each.symbol: each for each in sun.plane_columns(result)}
        shading = {each.name: each.values for each in sun.shading_columns(result)}
        collected = [0.0] * 12
        for table in sun.aperture_tables(result):
            columns = {each.symbol: each.values for each in table.columns}
            for row, name in enumerate(table.names):
                plane = planes[f"I_{columns['n'][row]:.0f}"]
                assert name in plane.name
                for month in range(12):
                    share = columns["F_s"][row]
                    lit = shading[name][month] if share is None else share
                    collected[month] += columns["a"][row] * lit * plane.values[month]
        assert collected == pytest.approx(list(result.working.sources.sun), rel=1e-9)


def test_both_limits_of_every_assembly_can_be_rebuilt(results):
    told = set()
    for result in results:
        for each in result.components:
            working = layer_working(result.house, each.component)
            if working is None:
                assert each.limits is None
                continue
            for name, step in working.steps:
                again = rebuilt(step.formula, step.inputs)
                assert again == pytest.approx(float(step.value), rel=1e-9), name
            steps = dict(working.steps)
            if each.component.kind not in GROUND_KINDS:
                assert steps["upper_limit"].value == pytest.approx(each.limits.upper)
                assert steps["lower_limit"].value == pytest.approx(each.limits.lower)
            for row in range(len(working.names)):
                d, conductivity, resistance = (column.values[row] for column in working.columns)
                assert d / conductivity == pytest.approx(resistance)
            told.add(len(working.steps))
    assert len(told) > 1  # plain and framed


def test_a_slightly_ventilated_layer_stands_between_still_and_open():
    house = make_house()
    wall = Assembly(
        "vented",
        (
            SolidLayer(Material("board", 0.25), 0.0125),
            FramedLayer(Material("wood", 0.12), 0.2, 0.09, Material("wool", 0.04)),
            AirLayer(Ventilation.SLIGHTLY, 0.025, 800e-6),
            SolidLayer(Material("brick", 0.9), 0.1),
        ),
    )
    part = replace(house.components[0], construction=wall)
    steps = dict(layer_working(house, part).steps)
    inside, outside = films_of(part, house.films)
    limits = total_resistance(wall.layers, part.heat_flow, inside, outside)
    assert steps["upper_limit"].value == pytest.approx(limits.upper)
    assert steps["lower_limit"].value == pytest.approx(limits.lower)
    for step in steps.values():
        assert rebuilt(step.formula, step.inputs) == pytest.approx(float(step.value))


def test_every_code_has_its_words(results):
    for result in results:
        for columns in tables(result):
            for column in columns:
                assert quantity_words(column.name)
                assert column.formula is None or formula_words(column.formula.code)
        for each in result.components:
            working = layer_working(result.house, each.component)
            for name, step in working.steps if working else ():
                assert quantity_words(name)
                assert formula_words(step.formula.code)
                assert all(quantity_words(given.name) for given in step.inputs)


def test_a_tapered_board_is_taken_from_edge_to_edge():
    house = make_house()
    roof = Assembly(
        "flat",
        (
            FramedLayer(Material("wood", 0.12), 0.1, 0.14, Material("wool", 0.04)),
            SolidLayer(Material("board", 0.04), 0.07, thinnest=0.02),
        ),
    )
    part = replace(house.components[0], construction=roof)
    steps = dict(layer_working(house, part).steps)
    inside, outside = films_of(part, house.films)
    limits = total_resistance(roof.layers, part.heat_flow, inside, outside)
    assert steps["upper_limit"].value == pytest.approx(limits.upper)
    assert steps["lower_limit"].value == pytest.approx(limits.lower)
    for name, step in steps.items():
        assert rebuilt(step.formula, step.inputs) == pytest.approx(float(step.value)), name
        assert quantity_words(name)
