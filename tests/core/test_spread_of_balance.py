"""Storage within the day, and leaks within the month, against their exact solutions.

Both are computed here from first principles, without the formulae of the core: a house of one
capacity under a sinusoid, step by step (each step solved exactly), and the mean of a loss over a
finely divided normal distribution.
"""

import math

import numpy as np
import pytest

from server.core.air import linear_loss
from server.core.degree_days import heating_degree_days
from server.core.energy import Spread, unstored_share

STEPS = 240
LACKS = np.linspace(-6.0, 6.0, 601)
SWING = math.sqrt(0.5)  # rms of a sinusoid of amplitude one


def daily_heating(lag, band):
    """Mean heating over the day, per unit of conductance, at each mean lack.

    C dT/dt = K (cos wt - lack - T) + heating - cooling, T held within 0 and the band; lag is w C/K.
    """
    keeps = math.exp(-2.0 * math.pi / (STEPS * lag))
    inside = np.zeros(LACKS.size)
    heat = np.zeros(LACKS.size)
    for _day in range(math.ceil(8.0 * lag / (2.0 * math.pi)) + 5):
        heat[:] = 0.0
        for step in range(STEPS):
            settles = math.cos(2.0 * math.pi * (step + 0.5) / STEPS) - LACKS
            free = settles + (inside - settles) * keeps
            inside = np.clip(free, 0.0, band)
            heat += np.maximum(inside - free, 0.0) / (1.0 - keeps)
    return heat / STEPS


@pytest.mark.parametrize("lag", [0.3, 1.0, 2.0, 4.0, 8.0])
@pytest.mark.parametrize("band", [0.1, 0.3, 0.6, 1.5])
def test_a_day_of_storage(lag, band):
    """Within 3 % of the swing's amplitude, whatever the mean of the day."""
    exact = daily_heating(lag, band)
    unstored = unstored_share(np.array(SWING), np.array(lag * 24.0 / (2.0 * math.pi)), band)
    for days in (0.3, 1.0):
        spread = Spread(np.array(days), np.array(SWING), unstored)
        for lack in (-1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5):
            weight = np.exp(-0.5 * ((LACKS - lack) / days) ** 2)

            def below(base, days=days):
                return heating_degree_days(0.0, days, base, 1.0)

            found = spread.over_the_day(below, np.array(lack), 1.0)
            assert found == pytest.approx(np.average(exact, weights=weight), abs=0.03)


def test_without_storage_or_band_all_of_the_swing_is_left():
    swing = np.array([0.0, 2.0, 8.0])
    assert unstored_share(swing, np.zeros(3), 3.0) == pytest.approx(np.ones(3))
    assert unstored_share(swing[1:], np.full(2, 12.0), 0.0) == pytest.approx(np.ones(2))


@pytest.mark.parametrize("mean", [-10.0, 5.0, 18.0, 24.0])
def test_the_loss_of_leaks_over_a_month(mean):
    """Slope of least squares within 4 %, mean loss within what 0.2 K outdoors would change."""
    spread = 6.0

    def loss(outdoors):
        colder = 21.0 - np.asarray(outdoors)
        return colder * np.sqrt(0.00029 * np.abs(colder) + 0.000231 * 3.0**2)

    outdoors = mean + spread * np.linspace(-6.0, 6.0, 4801)
    weight = np.exp(-0.5 * ((outdoors - mean) / spread) ** 2)
    lost = np.average(loss(outdoors), weights=weight)
    slope = -np.average(loss(outdoors) * (outdoors - mean), weights=weight) / spread**2
    found_loss, found_slope = linear_loss(loss, np.array([mean]), np.array([spread]))
    assert found_loss[0] == pytest.approx(lost, abs=0.2 * slope)
    assert found_slope[0] == pytest.approx(slope, rel=0.04)


def test_a_loss_that_is_straight_stays_as_it_is():
    mean = np.array([-5.0, 30.0])
    loss, slope = linear_loss(lambda outdoors: 70.0 * (20.0 - outdoors), mean, np.array([0.0, 4.0]))
    assert loss == pytest.approx(70.0 * (20.0 - mean))
    assert slope == pytest.approx([70.0, 70.0])
