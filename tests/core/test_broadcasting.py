"""An array of houses gives what a loop over single houses gives."""

from dataclasses import fields, is_dataclass, replace

import numpy as np
import pytest

from server.core.air import BlowerDoor
from server.core.assembly import Assembly, FramedLayer, SolidLayer
from server.core.comparison import compare
from server.core.draws import evaluate_draws
from server.core.evaluate import evaluate
from server.core.house import House

DRAWS = 5


def varied(value, factors):
    """A copy of a tree of core objects whose conductivities and depths carry draws."""
    if isinstance(value, SolidLayer):
        material = value.material
        material = replace(material, conductivity=material.conductivity * factors)
        return replace(value, material=material, thickness=value.thickness * factors)
    if isinstance(value, FramedLayer):
        return replace(value, fraction=value.fraction * factors)
    if isinstance(value, tuple):
        return tuple(varied(each, factors) for each in value)
    if isinstance(value, Assembly):
        return replace(value, layers=varied(value.layers, factors))
    if is_dataclass(value) and any(field.name == "construction" for field in fields(value)):
        return replace(
            value, area=value.area * factors, construction=varied(value.construction, factors)
        )
    return value


def varied_house(house: House, factors) -> House:
    assert isinstance(house.leakage, BlowerDoor)
    return replace(
        house,
        components=varied(house.components, factors),
        leakage=replace(house.leakage, flow_at_50_pa=house.leakage.flow_at_50_pa * factors),
        heating_set_point=house.heating_set_point * factors,
    )


def test_array_in_equals_loop_over_scalars(demo):
    factors = np.linspace(0.9, 1.1, DRAWS)
    together = compare(varied_house(demo.house, factors), demo.strategies)
    for draw, factor in enumerate(factors):
        alone = compare(varied_house(demo.house, float(factor)), demo.strategies)
        for many, one in zip(together.all_results, alone.all_results, strict=True):
            for name in ("to_outdoors", "to_ground", "air", "annual_cost", "carbon"):
                assert getattr(many, name)[draw] == pytest.approx(getattr(one, name), rel=1e-12)
            for series in ("balance_point", "degree_days", "load_kwh"):
                np.testing.assert_allclose(
                    getattr(many.heating, series)[draw], getattr(one.heating, series), rtol=1e-11
                )
            np.testing.assert_allclose(
                many.cooling.load_kwh[draw], one.cooling.load_kwh, rtol=1e-11, atol=1e-9
            )
            np.testing.assert_allclose(many.cooling.latent_kwh[draw], one.cooling.latent_kwh)
            for left, right in zip(many.components, one.components, strict=True):
                share = np.broadcast_to(left.heating_share_kwh, (DRAWS,))[draw]
                assert share == pytest.approx(right.heating_share_kwh, rel=1e-11, abs=1e-12)


def test_many_draws_in_chunks_equal_one_array_call(demo, monkeypatch):
    monkeypatch.setattr("server.core.draws.CHUNK", 4)
    factors = np.linspace(0.9, 1.1, 14)
    house = varied_house(demo.house, factors)
    figures = {
        "heating": lambda result: result.heating_load_kwh,
        "first": lambda result: result.heating.load_kwh[..., 0],
        "storeys": lambda result: result.house.storeys,
    }
    collected = evaluate_draws(house, 14, figures)
    together = evaluate(house)
    np.testing.assert_allclose(collected["heating"], together.heating_load_kwh, rtol=1e-12)
    np.testing.assert_allclose(collected["first"], together.heating.load_kwh[:, 0], rtol=1e-12)
    assert collected["storeys"].shape == (14,)
