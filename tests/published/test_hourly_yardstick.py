"""The monthly method beside an hourly balance: five resistances, one capacitance (ISO 13790).

The yardstick (benchmarks/hourly) shares with the product the house, its U-values, the infiltration
formula and the ground's temperature; balance, sun, storage, control and windows are its own. Both
get the same year: the yardstick its 8760 hours, the product twelve months reduced from them. The
demo house as found and under its three strategies, in Greensboro NC and Sand Point AK.

Heating and cooling meet their aims, and so does the heating saved. What is not met is this:

- What the strategies save in cooling is overstated by 460 to 580 kWh, 17 to 52 % of it; the aim is
  6 %. It is a small difference of large loads, and cooling as found stands 7 % high. Nearly all of
  that is sun on bare walls and roofs: the standard spreads it over the inside surfaces, from where
  a part leaves once more, though it has come through the wall already. Without sun on opaque parts
  the four houses stand -1.0 to +0.9 % apart in cooling.
- The step from one strategy to another is smaller than what stays of either's error: up to 870 kWh
  apart (19 % of it, Sand Point, cavities against exterior). Their order is the same.
"""

from functools import cache

import numpy as np
import pytest

from benchmarks.hourly.side_by_side import side_by_side, steady_error
from benchmarks.hourly.weather import GREENSBORO, SAND_POINT, read_year

YEARS = (GREENSBORO, SAND_POINT)
AS_FOUND = 0


@cache
def both(file):
    return side_by_side(read_year(file))


def within(by_month, by_hour, share, kwh):
    """Each figure within a share of the hourly one, or within some kWh of it."""
    return np.abs(by_month - by_hour) <= np.maximum(share * by_hour, kwh)


@pytest.mark.parametrize("file", YEARS)
def test_the_yardstick_is_fair(file):
    """Steady, without gains, heating is sum(UA) dT within 1.5 %; it stays within 0.9 %."""
    assert np.abs(steady_error(read_year(file))).max() < 0.015


@pytest.mark.parametrize("file", YEARS)
def test_heating(file):
    """Aim: 8 % or 500 kWh. Met: -5.9 to +0.2 % in Greensboro, -3.7 to -1.2 % in Sand Point."""
    assert within(*both(file).heating, 0.08, 500.0).all()


@pytest.mark.parametrize("file", YEARS)
def test_heating_saved(file):
    """Aim: 6 %. Met against the house as found: +2.1 to +3.7 % and -2.0 to +0.3 %."""
    by_month, by_hour = (loads[AS_FOUND] - loads[1:] for loads in both(file).heating)
    assert within(by_month, by_hour, 0.06, 0.0).all()


@pytest.mark.parametrize("file", YEARS)
def test_strategies_stand_in_the_same_order(file):
    by_month, by_hour = both(file).heating
    assert list(np.argsort(by_month)) == list(np.argsort(by_hour))


@pytest.mark.parametrize("file", YEARS)
def test_cooling(file):
    """Aim: 12 % or 400 kWh. Met: -0.8 to +6.6 %, and in Sand Point hardly any."""
    assert within(*both(file).cooling, 0.12, 400.0).all()


def test_cooling_saved():
    """Aim: 6 %. Not met: what is saved comes out 17 to 52 % too high; within 600 kWh of it."""
    by_month, by_hour = (loads[AS_FOUND] - loads[1:] for loads in both(GREENSBORO).cooling)
    assert (by_hour > 0.0).all()
    assert within(by_month, by_hour, 0.0, 600.0).all()
