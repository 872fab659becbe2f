"""The balance of the graph, worked by hand."""

import pytest

from server.core.network import INDOORS, Edge, balance


def test_one_buffer_is_two_resistances_in_row():
    # 20 W/K into the attic, 60 W/K out of it: 1 / (1/20 + 1/60) = 15 W/K
    edges = [Edge(INDOORS, "attic", 20.0), Edge("attic", "outdoors", 60.0)]
    result = balance(edges, ["attic"], "outdoors", "ground")
    assert result.to_outdoors == pytest.approx(15.0)
    assert result.to_ground == 0.0
    # of 1 W that falls on the attic, 20/80 reaches indoors
    assert result.buffers["attic"].source_share == pytest.approx(0.25)
    assert result.buffers["attic"].outdoors == pytest.approx(0.75)


def test_a_basement_splits_between_outdoors_and_ground():
    # T_b = (30 T_in + 10 T_out + 60 T_g)/100, so 30 W/K becomes 3 to outdoors and 18 to the ground
    edges = [
        Edge(INDOORS, "basement", 30.0),
        Edge("basement", "outdoors", 10.0),
        Edge("basement", "ground", 60.0),
        Edge(INDOORS, "outdoors", 100.0),
    ]
    result = balance(edges, ["basement"], "outdoors", "ground")
    assert result.to_outdoors == pytest.approx(103.0)
    assert result.to_ground == pytest.approx(18.0)


def test_two_buffers_that_touch():
    # side attic a (20 in, 40 out) and upper attic b (10 in, 30 out) joined by 10 W/K:
    # 70 a - 10 b = 40, -10 a + 50 b = 30 (shares of outdoors) -> a = 2300/3400, b = 2500/3400
    edges = [
        Edge(INDOORS, "a", 20.0),
        Edge("a", "outdoors", 40.0),
        Edge(INDOORS, "b", 10.0),
        Edge("b", "outdoors", 30.0),
        Edge("a", "b", 10.0),
    ]
    result = balance(edges, ["a", "b"], "outdoors", "ground")
    assert result.buffers["a"].outdoors == pytest.approx(2300 / 3400)
    assert result.buffers["b"].outdoors == pytest.approx(2500 / 3400)
    assert result.to_outdoors == pytest.approx(20 * 2300 / 3400 + 10 * 2500 / 3400)


def test_an_edge_between_inside_spaces_carries_nothing():
    edges = [Edge(INDOORS, INDOORS, 500.0), Edge(INDOORS, "outdoors", 7.0)]
    assert balance(edges, [], "outdoors", "ground").to_outdoors == pytest.approx(7.0)
