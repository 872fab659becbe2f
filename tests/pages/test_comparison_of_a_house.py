"""A stored house compared and priced: columns add up, differences against any column, files."""

import csv
import io
import re

import html5lib
import pytest

from server.files.csv_table import as_text
from server.sheet import whole_parts
from tests.databases import sqlite_database
from tests.stored_houses import WholeSite, changed_file, demo_file


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    made = WholeSite(sqlite_database(tmp_path_factory.mktemp("compared")))
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def house(site):
    return site.store(demo_file())


@pytest.fixture(scope="module")
def visitor(site):
    return site.visitor(site.contractor)


def tables(text):
    """Section title to row name to the numbers of its cells, as printed."""
    tree = html5lib.parse(text, namespaceHTMLElements=False)
    found = {}
    for section in tree.iter("section"):
        title = section.find("h2")
        rows = {}
        for row in section.findall("table/tbody/tr"):
            name = row.find("th[@scope='row']")
            if name is not None:
                rows[" ".join((name.text or "").split())] = [
                    "".join(cell.itertext()) for cell in row.findall("td")
                ]
        found["".join(title.itertext())] = rows
    return found


def number(text):
    return float(text.replace("\u202f", "").replace("−", "-"))


def test_printed_columns_add_up(visitor, house):
    shown = tables(visitor.get(f"/houses/{house}/comparison").text)
    heat = shown["Where the heat goes"]
    for column in range(4):
        parts = [number(cells[column]) for name, cells in heat.items() if name != "All parts"]
        assert sum(parts) == number(heat["All parts"][column])
    cost = shown["What it costs"]
    for column in (1, 2, 3):
        reasons = [
            number(cells[column]) for name, cells in cost.items() if name.startswith("of it")
        ]
        assert len(reasons) == 3
        assert sum(reasons) == number(cost["Installed cost"][column])


def test_payback_follows_from_what_is_printed(visitor, house):
    cost = tables(visitor.get(f"/houses/{house}/comparison").text)["What it costs"]
    for column in (1, 2, 3):
        whole = number(cost["Installed cost"][column])
        saving = number(cost["Saving of fuel a year"][column])
        anyway = number(cost["of it due anyway"][column])
        for row, sum_paid in (
            ("Simple payback of the whole", whole),
            ("… beyond what is due anyway", whole - anyway),
        ):
            printed = float(cost[row][column].split()[0])
            assert printed == pytest.approx(sum_paid / saving, abs=0.6)


@pytest.mark.parametrize("base", range(4))
def test_differences_against_any_column(visitor, house, base):
    shown = tables(visitor.get(f"/houses/{house}/comparison?base={base}").text)
    title = next(name for name in shown if name.startswith("Against"))
    bills = [number(cell) for cell in shown["A year in figures"]["Cost of fuel a year"]]
    for column, cell in enumerate(shown[title]["Cost of fuel"]):
        assert number(cell) == pytest.approx(bills[column] - bills[base], abs=1.0)
    assert number(shown[title]["Cost of fuel"][base]) == 0.0


@pytest.mark.parametrize("base", ["9", "-1", "x", "99999", ""])
def test_a_base_that_is_none_falls_back(visitor, house, base):
    shown = tables(visitor.get(f"/houses/{house}/comparison?base={base}").text)
    assert "Against as found" in shown


def test_the_cost_page_adds_up_to_the_comparison(site, visitor, house):
    strategies = site.stored(house).house.strategies
    cost = tables(visitor.get(f"/houses/{house}/comparison").text)["What it costs"]
    for column, strategy in enumerate(strategies, start=1):
        page = visitor.get(f"/houses/{house}/strategies/{strategy.key}/cost").text
        totals = re.findall(r'data-column="Together, USD">([0-9.]+)<', page)
        *lines, anyway, insulation, only_because, whole = map(float, totals)
        assert sum(lines) == pytest.approx(whole)
        assert anyway + insulation + only_because == pytest.approx(whole)
        assert number(cost["Installed cost"][column]) == pytest.approx(whole, abs=0.51)


def test_a_strategy_that_does_not_fit_has_no_column_and_no_cost(site, visitor):
    def break_first(document):
        document["strategies"][0]["inside"] = ["no such space"]

    broken = site.store(changed_file(demo_file(), break_first))
    first = site.stored(broken).house.strategies[0]
    compared = visitor.get(f"/houses/{broken}/comparison").text
    assert first.name not in {words for table in tables(compared).values() for words in table}
    assert f'<a href="/houses/{broken}/strategies/{first.key}">{first.name}</a>' in compared
    assert "stays out of the comparison and of offers" in compared
    assert visitor.get(f"/houses/{broken}/strategies/{first.key}/cost").status_code == 404
    assert "does not fit" in visitor.get(f"/houses/{broken}/strategies/{first.key}").text


def test_comparison_file_and_csv(visitor, house):
    file = visitor.get(f"/houses/{house}/comparison/file")
    assert file.json()["format"] == "warmside-comparison/1"
    rows = list(csv.reader(io.StringIO(visitor.get(f"/houses/{house}/comparison/csv").text)))
    assert rows[0][3:] == ["As found", "Cavity only", "Exterior continuous", "Hybrid"]
    total = next(row for row in rows if row[1] == "All parts")
    parts = [row for row in rows if row[0] == "Where the heat goes" and row[1] != "All parts"]
    assert sum(float(row[3]) for row in parts) == float(total[3])
    fuel = next(row for row in rows if row[:2] == ["Against as found", "Cost of fuel"])
    assert float(fuel[4]) < 0


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "\tx"])
def test_a_formula_stays_a_text(text):
    assert as_text(text) == f"'{text}"
    assert as_text(f"x{text}") == f"x{text}"


@pytest.mark.parametrize(
    ("parts", "whole"),
    [
        ([0.4, 0.4, 0.4], [1.0, 0.0, 0.0]),
        ([1.5, 1.5], [2.0, 1.0]),
        ([-0.6, 1.6], [-1.0, 2.0]),
        ([10.0, 20.0], [10.0, 20.0]),
        ([], []),
    ],
)
def test_whole_parts_sum_to_the_rounded_sum(parts, whole):
    assert whole_parts(parts) == whole
    assert sum(whole_parts(parts)) == round(sum(parts))
