"""Degree-days to any base from a month's mean and the spread of its days."""

from __future__ import annotations

import math

import numpy as np
from scipy.special import ndtr

from server.core.arrays import Array, Real

_LEAST_SPREAD = 1e-9  # K: a month without spread becomes a step, without dividing by zero


def heating_degree_days(
    mean_temperature: Real, deviation: Real, base_temperature: Real, days: Real
) -> Array:
    """Degree-days below a base, for normally distributed daily means.

    HDD = N s (Z F(Z) + f(Z)), Z = (T_base - T_mean)/s, with F and f the standard normal
    distribution and density.
    Shapes: any that broadcast; temperatures deg C, deviation K, days d; result K d.
    Range: deviation zero (a step) and up.
    Raises: nothing.
    Source: Schoenau and Kehrig (1990), Energy and Buildings 14; ASHRAE Fundamentals, energy
    estimating chapter.
    """
    spread = np.maximum(deviation, _LEAST_SPREAD)
    z = (base_temperature - mean_temperature) / spread
    density = np.exp(-0.5 * z * z) / math.sqrt(2.0 * math.pi)
    result: Array = np.maximum(days * spread * (z * ndtr(z) + density), 0.0)
    return result


def cooling_degree_days(
    mean_temperature: Real, deviation: Real, base_temperature: Real, days: Real
) -> Array:
    """Degree-days above a base: the heating formula seen from the other side.

    Shapes: any that broadcast; temperatures deg C, deviation K, days d; result K d.
    Range: deviation zero (a step) and up.
    Raises: nothing.
    Source: as `heating_degree_days`, with Z = (T_mean - T_base)/s.
    """
    return heating_degree_days(base_temperature, deviation, mean_temperature, days)


def share_of_days_above(mean_temperature: Real, deviation: Real, threshold: Real) -> Array:
    """Share of the days whose mean lies above a threshold.

    Shapes: any that broadcast; deg C and K; result dimensionless, 0 to 1.
    Range: deviation zero (a step) and up.
    Raises: nothing.
    Source: the normal distribution of daily means, as `heating_degree_days`.
    """
    result: Array = ndtr((mean_temperature - threshold) / np.maximum(deviation, _LEAST_SPREAD))
    return result


def erbs_deviation(mean_temperature: Array, month_days: Array) -> Array:
    """Standard deviation of daily means where only the twelve monthly means are known.

    The correlation gives the deviation of monthly averages, s_m = 1.45 - 0.0290 T + 0.0664 s_yr;
    a day's is sqrt(N) times that.
    Shapes: (..., 12) deg C and (12,) d; result (..., 12) K.
    Range: the twelve months of one year; never below zero.
    Raises: nothing.
    Source: Erbs, Klein and Beckman (1983), ASHRAE Journal, in Duffie and Beckman's form (memory).
    """
    means = np.asarray(mean_temperature)
    yearly = means.std(axis=-1, keepdims=True)
    monthly = 1.45 - 0.0290 * means + 0.0664 * yearly
    result: Array = np.maximum(monthly, 0.0) * np.sqrt(month_days)
    return result


def erbs_heating_degree_days(
    mean_temperature: Array, base_temperature: Real, month_days: Array
) -> Array:
    """Heating degree-days from monthly means alone, by the correlation's own formula.

    Shapes: (..., 12) deg C, base deg C, (12,) d; result (..., 12) K d.
    Range: real years; smooth long-term normals understate the spread.
    Raises: nothing.
    Source: Erbs, Klein and Beckman (1983), in Duffie and Beckman's form (memory).
    """
    monthly = erbs_deviation(mean_temperature, month_days) / np.sqrt(month_days)
    h = (base_temperature - mean_temperature) / (monthly * np.sqrt(month_days))
    result: Array = monthly * month_days**1.5 * (h / 2.0 + np.log(2.0 * np.cosh(1.698 * h)) / 3.396)
    return result
