"""Any figure can be worked out again from what its page prints."""

import math
import re

import html5lib
import pytest

from server.explaining.setting import DIGITS
from tests.calculator import worked_out
from tests.databases import sqlite_database
from tests.pages.test_offers import send
from tests.stored_houses import WholeSite, demo_file

DASH = "–"
BACK = (
    (re.compile(r"(.+) where (.+), else (.+)"), r"\1 if \2 else \3"),
    (re.compile(r"[·]"), "*"),
    (re.compile("²"), "**2"),
    (re.compile(r"\^"), "**"),
    (re.compile("√"), "sqrt"),
    (re.compile("Φ"), "Phi"),
    (re.compile("φ"), "phi"),
    (re.compile("π"), "pi"),
    (re.compile("−"), "-"),
)


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    made = WholeSite(sqlite_database(tmp_path_factory.mktemp("site")))
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def pages(site):
    """The pages with figures, by their path below the house."""
    key = site.store(demo_file())
    document = site.stored(key).house.as_stored()
    wall = document["components"][0]
    built = document["assemblies"][wall["assembly"]]["key"]
    visitor = site.visitor(site.contractor)
    paths = ("", "/comparison", "/working", f"/parts/{wall['key']}", f"/assemblies/{built}")
    _page, link = send(site, key)
    texts = {path: visitor.get(f"/houses/{key}{path}").text for path in paths}
    texts["/offer"] = site.visitor().get(link).text
    return {
        path.partition("/")[2].partition("/")[0]: html5lib.parse(text, namespaceHTMLElements=False)
        for path, text in texts.items()
    }


def text_of(element):
    return " ".join("".join(element.itertext()).split())


def expression(printed):
    for sign, typed in BACK:
        printed = sign.sub(typed, printed)
    return printed


def number(printed):
    return float(printed.replace("−", "-"))


def last_place(value):
    """Half of the last printed place of a number with so many digits."""
    return 0.5 * 10.0 ** (math.floor(math.log10(abs(value))) - DIGITS + 1) if value else 0.0


def assert_rebuilt(formula, where, values, figure):
    """The figure, within what the rounding of every input and of itself can do."""
    again = worked_out(formula, where, values)
    room = last_place(figure) + 1e-12
    for symbol, value in values.items():
        step = last_place(value)
        if step and re.search(rf"\b{symbol}\b", f"{formula} {where}"):
            moved = [
                worked_out(formula, where, values | {symbol: value + side * step})
                for side in (-1.0, 1.0)
            ]
            room += max(abs(each - again) for each in moved)
    assert abs(again - figure) <= 1.01 * room, (formula, values, figure, again)


def shorts(element):
    pairs = [
        text_of(span).split(" = ", 1)
        for span in element.iter("span")
        if span.get("class") == "short"
    ]
    return [(symbol, expression(short)) for symbol, short in pairs]


@pytest.mark.parametrize(
    ("path", "least"),
    [("", 5), ("comparison", 100), ("working", 5), ("parts", 4), ("assemblies", 4), ("offer", 100)],
)
def test_every_explained_figure_can_be_worked_out_again(pages, path, least):
    rebuilt = 0
    for block in pages[path].iter("div"):
        if block.get("class") != "block":
            continue
        symbol, formula = text_of(block.find("p/b")).split(" = ", 1)
        where = shorts(block.find("p"))
        lines = {}
        for row in block.findall(".//tbody/tr"):
            heading = row.find("th/b")
            if heading is not None:
                lines[text_of(heading), len(lines)] = [text_of(cell) for cell in row.findall("td")]
        *inputs, result = lines.items()
        assert result[0][0] == symbol
        for column, printed in enumerate(result[1]):
            values = {
                name: number(texts[column])
                for (name, _place), texts in inputs
                if texts[column] != DASH
            }
            if formula == "the lines below added up":
                formula_of = " + ".join(values) or "0"
            else:
                formula_of = expression(formula)
            assert_rebuilt(formula_of, where, values, number(printed))
            rebuilt += 1
    assert rebuilt >= least


@pytest.mark.parametrize("path", ["comparison", "working"])
def test_every_column_behind_the_figures_can_be_worked_out_again(pages, path):
    rebuilt = set()
    for behind in pages[path].iter("section"):
        tables = [each for each in behind.iter("table") if each.get("class") == "plain"]
        legends = [each for each in behind.iter("dl") if each.get("class") == "columns"]
        for table, legend in zip(tables, legends, strict=True):
            symbols = [text_of(row) for row in legend.iter("dt")]
            rows = [[text_of(cell) for cell in row.findall("td")] for row in table.iter("tr")][1:]
            for symbol, told in zip(symbols, legend.iter("dd"), strict=True):
                spans = {span.get("class"): span for span in told.findall("span")}
                if "formula" not in spans:
                    continue
                formula = expression(text_of(spans["formula"]).split(" = ", 1)[1])
                given = {}
                for span in told.findall("span"):
                    if span.get("class") == "given":
                        name, rest = text_of(span).split(" = ", 1)
                        given[name] = number(rest.split(" ")[0])
                for row in rows:
                    values = given | {
                        name: number(cell)
                        for name, cell in zip(symbols, row, strict=True)
                        if cell != DASH and name != symbol
                    }
                    figure = number(row[symbols.index(symbol)])
                    assert_rebuilt(formula, shorts(told), values, figure)
                rebuilt.add(symbol)
    assert {
        "R",
        "U",
        "UA",
        "Q",
        "Vi",
        "Kair",
        "La",
        "ka",
        "Ks",
        "g",
        "Tg",
        "tb",
        "s",
        "x",
        "r",
        "HDD",
        "Qh",
    } <= rebuilt
    assert {"tmax", "Kmax", "c", "Qs", "h", "Ql", "G", "wout", "a", "L"} <= rebuilt
