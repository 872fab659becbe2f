"""Temperatures of the spaces on the design night."""

from dataclasses import replace

import pytest

from server.core.design_night import design_night
from server.core.evaluate import evaluate
from server.core.house import Component, FixedTransmittance, Kind, Space
from tests.factories import make_climate, make_house


def house(design=-10.0):
    """One room under an attic: 100 m2 of ceiling at U 0.5, 120 m2 of roof at U 2, no vents."""
    found = make_house(climate=make_climate(heating_design_temperature=design))
    parts = [part for part in found.components if part.kind is not Kind.ROOF]
    attic = (
        Component("ceiling", Kind.CEILING, "indoors", "attic", 100.0, FixedTransmittance(0.5)),
        Component("attic roof", Kind.ROOF, "attic", "outdoors", 120.0, FixedTransmittance(2.0)),
    )
    spaces = (*found.spaces, Space("attic", False, 100.0))
    return replace(found, spaces=spaces, components=(*parts, *attic))


def test_a_buffer_stands_between():
    """(50 x 20 + 240 x -10) / 290 = -4.828 (arithmetic)."""
    night = design_night(evaluate(house()))
    assert night == pytest.approx({"outdoors": -10.0, "indoors": 20.0, "attic": -4.8276}, abs=1e-3)


def test_no_night_where_its_temperature_is_not_known():
    assert design_night(evaluate(house(design=None))) is None
