"""U times area of all parts beside a house built to the code, IECC R402.1.5 (memory).

Walls of 200 ft2 and a window of 40 ft2 in zone 4: 200 x 0.045 + 40 x 0.30 = 21.0 Btu/(h degF).
With walls of 1 / (0.85 + 21.57) = 0.0446 and a window of 0.30: 8.92 + 12.0 = 20.92, within;
with one of 0.32: 8.92 + 12.8 = 21.72, above. Walls of 1 / (0.85 + 16.2) = 0.05865 are made up for
by a window of 0.22: 11.73 + 8.8 = 20.53.
"""

import pytest

from server.core.findings.base import Severity
from server.core.findings.energy_code_total import RULE
from tests.core.findings.cases import PARTITION, findings, the_one
from tests.recipes.houses import SLAB, part

ONE = 0.5275279  # W/K in one Btu/(h degF)
SIDES = ("indoors", "outdoors")
FRONT = part("front", "wall", SIDES, [{"resistance": "R-3", "name": "old"}])
WINDOW = part("window", "window", SIDES, []) | {"area": "40 ft^2", "shgc": 0.4}
ASHRAE = {"films": "ASHRAE winter"}
OUTSIDE_OF_IT = [SLAB, PARTITION]  # the code asks something else of them


def parts(u_value):
    return [FRONT, WINDOW | {"u_value": f"{u_value} BTU/(h*ft^2*degF)"}, *OUTSIDE_OF_IT]


def to(label):
    return {"front": {"remove": ["old"], "inside": [{"resistance": label}]}}


@pytest.mark.parametrize(
    ("label", "window", "total", "outcome"),
    [
        ("R-21.57", "0.30", 20.92, "within"),
        ("R-21.57", "0.32", 21.72, "above"),
        ("R-16.2", "0.22", 20.53, "within"),
        ("R-16.2", "0.30", 23.73, "above"),
    ],
)
def test_sum_of_u_times_area(label, window, total, outcome):
    found = the_one(RULE, parts(window), to(label), **ASHRAE)
    assert found.outcome == outcome
    assert found.severity is (Severity.GOOD if outcome == "within" else Severity.WATCH)
    assert found.components == ()
    assert found.facts == {"edition": "IECC 2021", "zone": "4A"}
    assert found.measured.figure.value == pytest.approx(total * ONE, abs=0.02)
    assert found.measured.limit.value == pytest.approx(21.0 * ONE, abs=0.01)


def test_limits_of_another_edition():
    """IECC 2018: 200 x 0.060 + 40 x 0.32 = 24.8."""
    code = {"energy_code": {"edition": "IECC 2018"}}
    found = the_one(RULE, parts("0.32"), to("R-16.2"), **ASHRAE, **code)
    assert found.outcome == "within"
    assert found.measured.limit.value == pytest.approx(24.8 * ONE, abs=0.01)


def test_nothing_is_said_as_found_without_a_zone_and_without_such_parts():
    assert not findings(RULE, parts("0.30"))
    assert not findings(RULE, parts("0.30"), to("R-21.57"), zone=None)
    inner = {"partition": {"fill": "mineral wool batt"}}
    assert not findings(RULE, OUTSIDE_OF_IT, inner)
