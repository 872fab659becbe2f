"""The price book as CSV: there and back, what is refused, and cells no spreadsheet may run."""

import contextlib
import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.files.faults import BadFile
from server.pricing.book import REASONS, BadPrice, PriceBook, PriceLine
from server.pricing.book_file import (
    COLUMNS,
    SEED_BOOK,
    read_price_book,
    seed_price_book,
    write_price_book,
)
from server.pricing.work_item import UNITS
from tests.pricing.books import book, line

HEAD = "version,3\n" + ",".join(COLUMNS) + "\n"
GOOD = "siding,Siding,wood lap siding,ft2,100,200.5,5000,insulation,invented price\n"


def faults(text):
    with pytest.raises(BadFile) as refused:
        read_price_book(text)
    return [(fault.place, fault.read) for fault in refused.value.faults]


def test_one_line():
    read = read_price_book(HEAD + GOOD)
    assert read.version == 3
    assert read.lines == (
        PriceLine(
            "siding",
            "Siding",
            "wood lap siding",
            "ft2",
            Decimal(100),
            Decimal("200.5"),
            5000,
            "insulation",
            "invented price",
        ),
    )


def test_the_seed_book_there_and_back():
    text = SEED_BOOK.read_text(encoding="utf-8")
    assert write_price_book(read_price_book(text)) == text
    assert seed_price_book().version == 1


def test_as_a_spreadsheet_saves_it():
    padded = HEAD.replace("version,3", "version,3,,,,,,,").replace("\n", "\r\n")
    text = "\ufeff" + padded + GOOD.replace("\n", "\r\n") + ",,,,,,,,\r\n\r\n"
    assert read_price_book(text) == read_price_book(HEAD + GOOD)


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("key", ""),
        ("name", ""),
        ("matches", ""),
        ("unit", "m2"),
        ("material_cents", "-1"),
        ("material_cents", "1e3"),
        ("material_cents", "nan"),
        ("material_cents", "1.00001"),
        ("labour_cents", ""),
        ("labour_cents", "٣"),
        ("labour_cents", "99999999999"),
        ("minimum_cents", "0.5"),
        ("minimum_cents", "$5"),
        ("reason", "because"),
        ("note", "a\tb"),
        ("note", "x" * 501),
    ],
)
def test_a_bad_cell_is_named_by_row_and_column(column, cell):
    cells = dict(zip(COLUMNS, GOOD.strip().split(","), strict=True)) | {column: cell}
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerow(cells.values())
    assert faults(HEAD + GOOD.replace("siding", "other") + text.getvalue()) == [
        (f"row 4, {column}", cell or None)
    ]


def test_every_fault_is_told_at_once():
    bad = GOOD.replace("100", "x").replace("5000", "y")
    assert faults(HEAD + bad + "\n" + bad.replace(",x,", ",1,")) == [
        ("row 3, material_cents", "x"),
        ("row 3, minimum_cents", "y"),
        ("row 5, minimum_cents", "y"),
    ]


def test_the_same_key_or_match_twice():
    assert faults(HEAD + GOOD + GOOD) == [
        ("row 4, key", "siding"),
        ("row 4, matches", "wood lap siding"),
    ]
    with pytest.raises(BadPrice):
        book(line("disposal", "ft2"), line("disposal", "each", key="other"))


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("", "row 1, version"),
        (GOOD, "row 1, version"),
        ("version,0\n" + HEAD.split("\n", 1)[1], "row 1, version"),
        ("version,²\n" + HEAD.split("\n", 1)[1], "row 1, version"),
        ("version,3\n", "row 2, key"),
        ("version,3\n" + GOOD, "row 2, key"),
        (HEAD.replace("labour", "labor"), "row 2, labour_cents"),
        (HEAD.replace("note", "note,more"), "row 2, 10"),
        (HEAD + GOOD.strip() + ",more\n", "row 3, 10"),
    ],
)
def test_rows_that_are_no_price_book(text, place):
    assert faults(text)[0][0] == place


def test_what_is_no_csv():
    assert faults('version,3\n"open') == [("", None)]
    assert faults("x" * 1_000_001) == [("", None)]
    assert faults("version,3\n" + "x" * 200_000) == [("", None)]


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1", "@sum", "'=1", "''@x", "'plain", "＝1", '=cmd|"/c"!A1']
)
def test_no_cell_is_a_formula(text):
    wanted = book(line("disposal", "ft2", key=text, name=text, note=text))
    written = write_price_book(wanted)
    cells = [cell for row in csv.reader(io.StringIO(written)) for cell in row]
    assert not any(cell.startswith(("=", "+", "-", "@", "＝")) for cell in cells)
    assert read_price_book(written) == wanted


TEXTS = st.text(
    st.characters(codec="utf-8", exclude_categories=["C", "Z"]) | st.sampled_from("=+-@',\" "),
    min_size=1,
    max_size=30,
).filter(lambda text: text == text.strip() and text.isprintable())
CENTS = st.integers(0, 10**9).map(lambda number: Decimal(number) / 10000)
LINES = st.builds(
    PriceLine,
    TEXTS,
    TEXTS,
    TEXTS,
    st.sampled_from(UNITS),
    CENTS,
    CENTS,
    st.integers(0, 10**9),
    st.sampled_from(REASONS),
    TEXTS | st.just(""),
)
BOOKS = st.builds(
    PriceBook,
    st.integers(1, 10**9),
    st.lists(LINES, max_size=4, unique_by=(lambda x: x.key, lambda x: x.matches)).map(tuple),
)


@settings(deadline=None, max_examples=60)
@given(BOOKS)
def test_any_book_there_and_back(wanted):
    assert read_price_book(write_price_book(wanted)) == wanted


@settings(deadline=None, max_examples=60)
@given(st.text())
def test_any_text_is_read_or_refused(text):
    for given_text in (text, HEAD + text, HEAD + GOOD + text):
        with contextlib.suppress(BadFile):
            assert read_price_book(given_text).version >= 1
