"""How long screws through strips and board are: common practice of the trade, no publication.

Strips + board + sheathing + 1 1/2 in into the framing, up to the next length that is sold.
Lengths in inches.
"""

import pytest

from server.core.errors import ImpossibleValue
from server.core.fasteners import STOCK_LENGTHS, screw_length, stock_length

INCH = 0.0254  # m

# Strips, board, sheathing; the sum with 1 1/2 in; the length to buy.
TABLE = [
    ("a wall with 4 in of board: 3/4 + 4 + 3/4 + 1 1/2", 0.75, 4.0, 0.75, 7.0, 7.0),
    ("a wall with 2 in of board: 3/4 + 2 + 3/4 + 1 1/2", 0.75, 2.0, 0.75, 5.0, 5.0),
    ("plywood sheathing: 3/4 + 4 + 1/2 + 1 1/2", 0.75, 4.0, 0.5, 6.75, 7.0),
    ("a roof with 8 in of board: 1 1/2 + 8 + 3/4 + 1 1/2", 1.5, 8.0, 0.75, 11.75, 12.0),
    ("no strips", 0.0, 1.5, 0.5, 3.5, 3.5),
    ("a sixteenth more than a length on sale", 0.0, 1.5625, 0.5, 3.5625, 4.0),
    ("nothing but framing", 0.0, 0.0, 0.0, 1.5, 2.0),
]


@pytest.mark.parametrize(("name", "furring", "boards", "sheathing", "needed", "stock"), TABLE)
def test_screws_go_through_all_and_hold(name, furring, boards, sheathing, needed, stock):
    ours = screw_length(furring * INCH, boards * INCH, sheathing * INCH)
    assert ours == pytest.approx(needed * INCH, abs=1e-9), name
    assert stock_length(ours) == pytest.approx(stock * INCH, abs=1e-9), name


def test_lengths_on_sale():
    told = [2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]
    assert [length / INCH for length in STOCK_LENGTHS] == pytest.approx(told)
    for length in STOCK_LENGTHS:
        assert stock_length(length) == length


def test_beyond_the_longest_there_is_none():
    assert stock_length(14.0 * INCH) == pytest.approx(14.0 * INCH)
    assert stock_length(14.0625 * INCH) is None


def test_nothing_is_thinner_than_nothing():
    with pytest.raises(ImpossibleValue) as refused:
        screw_length(0.02, -0.05, 0.02)
    assert refused.value.field == "boards"
