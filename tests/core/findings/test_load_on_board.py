"""Board under a slab, against a third of its strength at 10 % deformation (common practice).

On 4 in of concrete of 2400 kg/m3: 0.1016 x 2400 x 9.80665 = 2391 Pa, and 40 lb/ft2 of rooms
(IRC 2021 Table R301.5, memory) x 47.88 = 1915 Pa, together 4306 Pa. A partition of 64 lb/ft is
64 x 4.4482 / 0.3048 = 934 N/m; spread at 45 degrees through the slab from a plate of 0.0889 m it
stands on 0.0889 + 2 x 0.1016 = 0.2921 m and presses with 3198 Pa. In all 7504 Pa.
On the weakest soil a footing may press with up to 1500 lb/ft2 = 71.8 kPa, the least bearing allowed
(IRC 2021 Table R401.4.1, memory).
"""

import pytest

from server.core.findings.base import Severity
from server.core.findings.load_on_board import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import BASEMENT_FLOOR, BASEMENT_WALL, SLAB, WALL, solid

CONCRETE = solid("concrete", "4 in")


def mine(strength):
    material = {"conductivity": "0.035 W/(m*K)", "density": "30 kg/m^3", "group": "rigid-foam"}
    if strength is not None:
        material["compressive_strength"] = f"{strength} kPa"
    return {"materials": {"my board": material}}


def slab(*layers):
    return [WALL, SLAB | {"layers": list(layers)}]


@pytest.mark.parametrize(
    ("strength", "outcome", "severity"),
    [
        (20, "too soft", Severity.STOP),  # carries 6.67 kPa
        (22, "too soft", Severity.STOP),  # 7.33 kPa
        (23, "carries", Severity.GOOD),  # 7.67 kPa
        (100, "carries", Severity.GOOD),  # 33.3 kPa
        (214, "carries", Severity.GOOD),  # 71.3 kPa
        (250, "carries a footing too", Severity.GOOD),  # 83.3 kPa
        (None, "strength not known", Severity.OPEN),
    ],
)
def test_board_under_four_inches_of_concrete(strength, outcome, severity):
    found = the_one(RULE, slab(CONCRETE, solid("my board", "2 in")), **mine(strength))
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.components == ("sun-room slab",)
    assert found.facts["board"] == "my board"
    if strength is not None:
        assert found.facts["slab"].value == pytest.approx(4306, abs=2)
        assert found.facts["footing"].value == pytest.approx(71820, abs=5)
        assert found.measured.figure.value == pytest.approx(7504, abs=3)
        assert found.measured.limit.value == pytest.approx(strength * 1000 / 3, abs=1)


def test_a_thin_slab_spreads_a_partition_less():
    """2 in: 1196 + 1915 + 934 / (0.0889 + 0.1016) = 8014 Pa."""
    thin = slab(solid("concrete", "2 in"), solid("my board", "2 in"))
    found = the_one(RULE, thin, **mine(23))
    assert found.outcome == "too soft"
    assert found.measured.figure.value == pytest.approx(8014, abs=3)


def test_the_floor_on_the_slab_weighs_too():
    """3/4 in of hardwood of 705 kg/m3: 0.01905 x 705 x 9.80665 = 132 Pa more."""
    floored = slab(solid("hardwood strip flooring", "3/4 in"), CONCRETE, solid("my board", "2 in"))
    found = the_one(RULE, floored, **mine(100))
    assert found.measured.figure.value == pytest.approx(7504 + 132, abs=3)


def test_a_cellar_floor_that_a_strategy_casts():
    change = {"basement floor": {"inside": [CONCRETE, solid("rigid mineral wool board", "2 in")]}}
    parts = [WALL, BASEMENT_WALL, BASEMENT_FLOOR]
    assert not findings(RULE, parts)
    assert the_one(RULE, parts, change).outcome == "too soft"  # wool board of 20 kPa


def test_board_that_carries_no_slab_is_not_asked():
    assert not findings(RULE, slab(solid("my board", "2 in"), CONCRETE), **mine(20))
    wall = {"basement wall": {"inside": [solid("concrete", "4 in"), solid("my board", "2 in")]}}
    assert not findings(RULE, [WALL, BASEMENT_WALL, BASEMENT_FLOOR], wall, **mine(20))
    assert not findings(RULE, [WALL, SLAB])
