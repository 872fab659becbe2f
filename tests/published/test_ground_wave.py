"""The periodic part of ISO 13370 by hand, and against a numeric solution of the yearly wave.

Lengths in m, conductivities in W/(m K), H_pe in W/K.
"""

import math

import numpy as np
import pytest
from scipy.sparse import lil_matrix
from scipy.sparse.linalg import spsolve

from server.core.ground import SOIL_HEAT_CAPACITY, EdgeInsulation
from server.core.ground_wave import (
    basement_floor_periodic,
    basement_wall_periodic,
    first_harmonic,
    penetration_depth,
    slab_periodic,
)

ANNEX_H = "ISO 13370:2007 Annex H, formulae and coefficients from memory"


@pytest.mark.parametrize(
    ("soil", "conductivity", "expected"),
    [("clay", 1.5, 2.2), ("sand", 2.0, 3.2), ("rock", 3.5, 4.2)],
)
def test_penetration_depth(soil, conductivity, expected):
    ours = penetration_depth(conductivity, SOIL_HEAT_CAPACITY[soil])
    assert round(ours, 1) == expected, ANNEX_H


# What, ours, and the standard's formula written out with its numbers.
BY_HAND = [
    (
        "bare slab, P 36, sand, d_t 0.3 + 2 x 0.21",
        slab_periodic(36.0, 2.0, 3.2, 0.72),
        0.37 * 36 * 2 * math.log(3.2 / 0.72 + 1),
    ),
    (
        "with R 1.76 down 0.6 m, foam 50 mm: d' = (1.76 - 0.05/2) 2 = 3.47, D = 1.2",
        slab_periodic(36.0, 2.0, 3.2, 0.72, EdgeInsulation(1.76, 0.6, True, 0.05)),
        0.37
        * 36
        * 2
        * (
            (1 - math.exp(-1.2 / 3.2)) * math.log(3.2 / (0.72 + 3.47) + 1)
            + math.exp(-1.2 / 3.2) * math.log(3.2 / 0.72 + 1)
        ),
    ),
    (
        "the same laid flat 0.6 m wide: D = 0.6",
        slab_periodic(36.0, 2.0, 3.2, 0.72, EdgeInsulation(1.76, 0.6, False, 0.05)),
        0.37
        * 36
        * 2
        * (
            (1 - math.exp(-0.6 / 3.2)) * math.log(3.2 / (0.72 + 3.47) + 1)
            + math.exp(-0.6 / 3.2) * math.log(3.2 / 0.72 + 1)
        ),
    ),
    (
        "basement floor, z 2.4, d_t 0.72",
        basement_floor_periodic(36.0, 2.0, 3.2, 0.72, 2.4),
        0.37 * 36 * 2 * math.exp(-2.4 / 3.2) * math.log(3.2 / 0.72 + 1),
    ),
    (
        "basement wall, z 2.4, d_w 2 x 0.17",
        basement_wall_periodic(36.0, 2.0, 3.2, 0.34, 2.4),
        0.37 * 36 * 2 * 2 * (1 - math.exp(-2.4 / 3.2)) * math.log(3.2 / 0.34 + 1),
    ),
]


@pytest.mark.parametrize(("what", "ours", "expected"), BY_HAND, ids=[each[0] for each in BY_HAND])
def test_periodic_part_by_hand(what, ours, expected):
    assert ours == pytest.approx(expected, rel=1e-12), f"{what}: {ANNEX_H}"


def test_the_wave_of_a_cosine_is_that_cosine():
    months = np.arange(1, 13)
    wave = first_harmonic(12.0 - 9.0 * np.cos(2 * np.pi * (months - 1.4) / 12))
    assert wave.amplitude == pytest.approx(9.0)
    late = wave.late_by(1.0)
    assert late == pytest.approx(-9.0 * np.cos(2 * np.pi * (months - 2.4) / 12))
    assert late.sum() == pytest.approx(0.0, abs=1e-9)


def widths(total, first, growth):
    """Cells that grow from a corner outward."""
    cells = [first]
    while sum(cells) < total:
        cells.append(cells[-1] * growth)
    return np.array(cells)


def numeric_wave(floor_resistance, half_width, wall, conductivity, heat_capacity):
    """Heat into a long building's floor per K of outdoor swing and m of its length, and its lag.

    Half of the building; soil 25 m beside and below it; a harmonic in time, so one complex solve.
    Rooms stand still at 0, outdoors swings by 1; films of the standard; nothing under the wall.
    """
    inner = widths(half_width, 0.05, 1.25)[::-1]
    outer = widths(25.0, 0.05, 1.25)
    under = np.full(max(int(wall / 0.05), 1), 0.05)
    dx = np.concatenate([inner, under, outer])
    dy = widths(25.0, 0.03, 1.2)
    nx, ny = len(dx), len(dy)
    omega = 2 * math.pi / 3.15e7
    matrix = lil_matrix((nx * ny, nx * ny), dtype=complex)
    right = np.zeros(nx * ny, dtype=complex)
    inside = np.zeros(nx * ny)
    for i in range(nx):
        for j in range(ny):
            here = i * ny + j
            matrix[here, here] += 1j * omega * heat_capacity * dx[i] * dy[j]
            if i + 1 < nx:
                k = conductivity * dy[j] / ((dx[i] + dx[i + 1]) / 2)
                there = here + ny
                matrix[here, here] += k
                matrix[there, there] += k
                matrix[here, there] -= k
                matrix[there, here] -= k
            if j + 1 < ny:
                k = conductivity * dx[i] / ((dy[j] + dy[j + 1]) / 2)
                there = here + 1
                matrix[here, here] += k
                matrix[there, there] += k
                matrix[here, there] -= k
                matrix[there, here] -= k
        top = i * ny
        to_middle = dy[0] / 2 / conductivity
        if i < len(inner):
            k = dx[i] / (to_middle + 0.17 + floor_resistance)
            matrix[top, top] += k
            inside[top] = k
        elif i >= len(inner) + len(under):
            k = dx[i] / (to_middle + 0.04)
            matrix[top, top] += k
            right[top] = k
    temperature = spsolve(matrix.tocsr(), right)
    flow = (inside * temperature).sum()
    return abs(flow), -np.angle(flow) / (2 * math.pi) * 12


@pytest.mark.parametrize(("floor_resistance", "half_width"), [(0.0, 4.0), (2.5, 4.0)])
def test_slab_against_a_numeric_wave(floor_resistance, half_width):
    """Within 20 % and about a month late; the standard's terms are known to be 14 to 17 % high.

    The standard's one month lies between the bare slab's 0.85 and the insulated one's 1.5.
    """
    amplitude, lag = numeric_wave(floor_resistance, half_width, 0.3, 2.0, 2.0e6)
    thickness = 0.3 + 2.0 * (0.17 + floor_resistance + 0.04)
    ours = slab_periodic(1.0, 2.0, penetration_depth(2.0, 2.0e6), thickness)
    assert ours == pytest.approx(amplitude, rel=0.20)
    assert 0.2 < lag < 1.6
