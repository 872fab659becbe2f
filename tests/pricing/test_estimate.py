"""Rounding, minimum charges, what has no price, and properties of any estimate."""

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from server.pricing.book import REASONS
from server.pricing.estimate import price
from server.pricing.steps import Step
from server.pricing.work_item import IN_SI, UNITS, WorkItem
from tests.pricing.books import book, line


def item(step, quantity, unit="ft2", material=None, thickness=None):
    """An item with its quantity in the unit of the trade."""
    return WorkItem("wall", step, material, quantity * IN_SI[unit], unit, thickness, "words")


def test_rounded_once_after_summing_half_up():
    """Three times 0.5 ft2 at 1 cent are 1.5, so 2; each by itself would be 1, in all 3."""
    rates = book(line("disposal", "ft2", "1", "0.3"))
    (printed,) = price([item(Step.DISPOSAL, 0.5)] * 3, rates).lines
    assert (printed.material_cents, printed.labour_cents) == (2, 0)
    assert printed.quantity == Decimal("1.5")
    # 2.5 and not a hair less, though 2.5 ft2 went through square metres
    (printed,) = price([item(Step.DISPOSAL, 2.5)], rates).lines
    assert printed.material_cents == 3


def test_minimum_charge_goes_to_labour():
    rates = book(line("disposal", "ft2", "10", "20", 5000))
    (printed,) = price([item(Step.DISPOSAL, 100.0)], rates).lines
    assert printed.minimum_applied
    assert (printed.material_cents, printed.labour_cents) == (1000, 4000)
    assert printed.total_cents == 5000
    (printed,) = price([item(Step.DISPOSAL, 200.0)], rates).lines
    assert not printed.minimum_applied
    assert printed.total_cents == 6000


def test_what_has_no_price_is_listed():
    rates = book(line("disposal", "ft2", "10"), line("scaffold", "ft2", "10"))
    marble = item(Step.NEW_LAYER, 5.0, material="marble")
    lump = item(Step.SCAFFOLD, 1.0, "lump sum")
    estimate = price([item(Step.DISPOSAL, 1.0), marble, lump], rates)
    assert estimate.unpriced == (marble, lump)
    assert estimate.total_cents == 10


def test_material_before_group_before_step():
    foam = item(Step.NEW_BOARD, 10.0, "board foot", "expanded polystyrene", 0.0254)
    lines = [
        line("fit insulation board", "board foot", "1"),
        line("rigid-foam", "board foot", "2"),
        line("expanded polystyrene", "board foot", "3"),
    ]
    for count, cents in ((1, 10), (2, 20), (3, 30)):
        assert price([foam], book(*lines[:count])).total_cents == cents


def test_what_comes_off_is_not_priced_as_new():
    rates = book(line("wood lap siding", "ft2", "500"))
    off = item(Step.TAKE_OFF_CLADDING, 10.0, material="wood lap siding")
    assert price([off], rates).unpriced == (off,)


def test_a_material_called_like_a_step_does_not_take_its_price():
    rates = book(line("disposal", "ft2", "10"))
    odd = item(Step.NEW_LAYER, 10.0, material="disposal")
    assert price([odd], rates).unpriced == (odd,)


def test_insulation_may_be_priced_by_area():
    """160 board feet of 2 in are 80 ft2."""
    board = item(Step.NEW_BOARD, 160.0, "board foot", "cork board", 2 * 0.0254)
    assert price([board], book(line("cork board", "ft2", "7"))).total_cents == 560


STEPS = [Step.DISPOSAL, Step.TAKE_OFF_CLADDING, Step.AIR_SEALING, Step.SCAFFOLD]
ITEMS = st.lists(
    st.builds(item, st.sampled_from(STEPS), st.floats(0.01, 1e5), st.sampled_from(UNITS)),
    max_size=8,
)
RATES = st.integers(0, 10**7).map(lambda number: str(Decimal(number) / 10000))
BOOKS = st.lists(
    st.builds(
        line,
        st.sampled_from([step.value for step in STEPS]),
        st.sampled_from(UNITS),
        RATES,
        RATES,
        st.integers(0, 10**6),
        st.sampled_from(REASONS),
    ),
    unique_by=lambda each: each.matches,
).map(lambda lines: book(*lines))


@settings(deadline=None, max_examples=60)
@given(ITEMS, BOOKS)
def test_totals_are_sums_of_printed_lines(items, rates):
    estimate = price(items, rates)
    for printed in estimate.lines:
        assert printed.total_cents == printed.material_cents + printed.labour_cents
        assert isinstance(printed.total_cents, int)
    assert estimate.total_cents == sum(printed.total_cents for printed in estimate.lines)
    assert estimate.total_cents == sum(estimate.cents_by_reason.values())
    keys = [printed.price_key for printed in estimate.lines]
    assert len(keys) == len(set(keys))
    assert bool(items) == bool(estimate.lines or estimate.unpriced)


@settings(deadline=None, max_examples=60)
@given(ITEMS, BOOKS, st.floats(1.0, 3.0))
def test_more_never_costs_less(items, rates, factor):
    more = [item(each.step, each.quantity * factor / IN_SI[each.unit], each.unit) for each in items]
    assert price(more, rates).total_cents >= price(items, rates).total_cents
    assert price(items * 2, rates).total_cents >= price(items, rates).total_cents


@settings(deadline=None, max_examples=30)
@given(ITEMS, BOOKS, st.randoms())
def test_the_order_of_the_items_does_not_matter(items, rates, random):
    shuffled = list(items)
    random.shuffle(shuffled)
    assert price(shuffled, rates).lines == price(items, rates).lines
