"""Insulation at the edge of an unheated slab: R-10.

IECC 2021 Table R402.1.3: 2 ft deep in zone 3 and 4 ft from zone 4 on (memory). IECC 2018 Table
R402.1.2: 2 ft in zones 4 and 5 and 4 ft from zone 6 on (memory).
"""

import pytest

from server.core.findings.base import Severity
from server.core.findings.slab_edge_by_code import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import FLOOR, SLAB, WALL

FOOT = 0.3048
R_10 = 1.761102  # m2 K/W


def edge(resistance, **extent):
    return {"edge_insulation": {"sun-room slab": {"resistance": resistance, **extent}}}


@pytest.mark.parametrize(
    ("edition", "zone", "resistance", "extent", "needed", "outcome"),
    [
        ("IECC 2021", "4A", "R-10", 4, 4, "enough"),
        ("IECC 2021", "4A", "R-10", 3, 4, "shallow"),
        ("IECC 2021", "4A", "R-8", 4, 4, "thin"),
        ("IECC 2021", "7", "R-10", 4, 4, "enough"),
        ("IECC 2021", "3A", "R-10", 2, 2, "enough"),
        ("IECC 2021", "3A", "R-10", 1, 2, "shallow"),
        ("IECC 2018", "4A", "R-10", 2, 2, "enough"),
        ("IECC 2018", "5A", "R-10", 1, 2, "shallow"),
        ("IECC 2018", "6A", "R-10", 2, 4, "shallow"),
        ("IECC 2018", "6A", "R-10", 4, 4, "enough"),
    ],
)
def test_resistance_and_depth(edition, zone, resistance, extent, needed, outcome):
    does = edge(resistance, depth=f"{extent} ft")
    code = {"energy_code": {"edition": edition}}
    found = the_one(RULE, [WALL, SLAB], does=does, zone=zone, **code)
    assert found.outcome == outcome
    assert found.severity is (Severity.GOOD if outcome == "enough" else Severity.WATCH)
    assert found.components == ("sun-room slab",)
    assert found.measured.at_least
    limit = needed * FOOT if outcome == "shallow" else R_10
    assert found.measured.limit.value == pytest.approx(limit)
    assert found.facts["depth"].value == pytest.approx(needed * FOOT)
    assert found.facts["extent"].value == pytest.approx(extent * FOOT)
    assert found.facts["zone"] == zone


def test_a_strip_that_lies_flat_is_as_wide_as_it_would_be_deep():
    assert the_one(RULE, [WALL, SLAB], does=edge("R-10", width="4 ft")).outcome == "enough"
    assert the_one(RULE, [WALL, SLAB], does=edge("R-10", width="2 ft")).outcome == "shallow"


@pytest.mark.parametrize(
    ("edition", "zone"),
    [("IECC 2021", "2A"), ("IECC 2018", "3A"), ("IECC 2021", None)],
)
def test_where_the_code_asks_nothing(edition, zone):
    code = {"energy_code": {"edition": edition}}
    assert not findings(RULE, [WALL, SLAB], does=edge("R-5", depth="1 ft"), zone=zone, **code)


def test_nothing_is_said_of_a_slab_left_alone_or_outside():
    assert not findings(RULE, [WALL, SLAB])
    assert not findings(RULE, [WALL, SLAB], {"wall of studs": {"fill": "dense-pack cellulose"}})
    porch = [WALL, FLOOR, SLAB | {"from": "basement"}]
    assert not findings(RULE, porch, does=edge("R-5", depth="1 ft"))
