"""Every outcome of every rule has its sentences, and they ask for no fact that is not there."""

import string

import pytest

from server.core.findings.all import ALL_FINDINGS
from server.core.findings.base import Finding, Measured, Quantity, Severity
from server.finding_words.materials import WORDS
from server.finding_words.telling import told
from server.finding_words.words import ALL_WORDS
from tests.core.findings.cases import (
    CLOSED_CELL,
    EMPTY_WALL,
    GYPSUM,
    PARTITION,
    case_of,
)
from tests.recipes.houses import CEILING, FLOORING, PLASTER, WALL, bays, part, solid

RULES = {rule.code: rule for rule in ALL_FINDINGS}
DEGREES = ("38.07", "38.10")
FOAM = solid("expanded polystyrene", "2 in")
INNER_FLOOR = part(
    "upper floor", "inner floor", ("indoors", "indoors"), [FLOORING, bays(), PLASTER]
)
PLASTERED = part("old partition", "partition", ("indoors", "indoors"), [PLASTER, bays(), PLASTER])
MINE = {
    name: {"conductivity": "0.04 W/(m*K)"}
    for name in ("my insulation", "my incombustible insulation")
}
MINE["my incombustible insulation"]["reaction_to_fire"] = "A1"
BOARDS = [
    "rigid glass fibre board",
    "expanded polystyrene",
    "polyisocyanurate, foil faced, aged",
    "phenolic foam, faced, aged",
    "wood-fibre insulation board",
    "cork board",
    "wood-wool cement board",
    "cellular glass",
    "perlite board",
    "gypsum sheathing",
    *MINE,
]
FILLS = [
    "mineral wool batt",
    "glass fibre batt",
    "dense-pack glass fibre",
    "dense-pack cellulose",
    "dense-pack wood fibre",
    "sheep wool batt",
    "perlite loose fill",
    "open-cell sprayed foam",
    CLOSED_CELL,
]


def _faces():
    """Walls and roofs with foam behind each sort of cover."""
    covers = {
        "covered": [GYPSUM],
        "wood": [solid("plywood", "3/4 in")],
        "thin": [solid("gypsum board", "1/4 in")],
        "wrong": [bays("mineral wool batt")],
        "bare": [],
    }
    for name, cover in covers.items():
        yield part(f"{name} wall", "wall", ("indoors", "outdoors"), [*cover, FOAM])
        yield part(f"{name} roof", "roof", ("attic", "outdoors"), [*cover, FOAM])
    yield part("rim joist", "wall", ("indoors", "outdoors"), [solid(CLOSED_CELL, "2 in")])


def _cases():
    yield case_of([*_faces(), WALL])
    screws = {"per_area": "0.56 per ft^2", "material": "steel", "diameter": "0.19 in"}
    change = {"wall of studs": {"outside": [solid(name, "1 in") for name in BOARDS]}}
    change["upper ceiling"] = {"fill_thickness": "14 in"}
    change["upper ceiling"]["inside"] = [solid("cork board", fasteners=screws)]
    yield case_of([WALL, CEILING], change, materials=MINE)
    for fill in FILLS:
        names = ("empty wall", "partition", "old partition", "upper floor")
        yield case_of(
            [EMPTY_WALL, PARTITION, PLASTERED, INNER_FLOOR],
            {name: {"fill": fill} for name in names},
            seen={"framing": "balloon"},
        )
    yield case_of([EMPTY_WALL], seen={"framing": "balloon"})
    yield case_of([EMPTY_WALL], seen={"framing": "platform"})
    yield case_of([EMPTY_WALL], year_built=1910)
    yield case_of([EMPTY_WALL], year_built=None)


@pytest.fixture(scope="module")
def found() -> list[Finding]:
    """Everything the rules of materials can say."""
    rules = [RULES[code] for code in WORDS]
    return [each for case in _cases() for rule in rules for each in rule.findings(case)]


@pytest.mark.parametrize("rule", ALL_FINDINGS, ids=lambda rule: rule.code)
def test_every_outcome_has_sentences(rule):
    words = ALL_WORDS[rule.code]
    assert set(words.told) == set(rule.outcomes)
    assert words.title
    assert words.source


@pytest.mark.parametrize("rule", ALL_FINDINGS, ids=lambda rule: rule.code)
def test_what_is_not_good_says_what_to_do(rule):
    asks = {name for name, severity in rule.outcomes.items() if severity is not Severity.GOOD}
    assert all(ALL_WORDS[rule.code].told[name][1] for name in asks)


def test_every_rule_says_whether_it_is_remembered_or_read():
    for words in WORDS.values():
        assert any(mark in words.source for mark in ("memory", "read", "quoted", "ommon practice"))


@pytest.mark.parametrize("code", WORDS)
def test_every_outcome_comes_up(found, code):
    assert {each.outcome for each in found if each.code == code} == set(RULES[code].outcomes)


@pytest.mark.parametrize("system", ["ip", "si"])
def test_every_brace_is_a_fact(found, system):
    for each in found:
        texts = told(each, system)
        assert texts.text
        assert "{" not in texts.text + texts.mend
        for sentence in WORDS[each.code].told[each.outcome]:
            names = {name for _, name, _, _ in string.Formatter().parse(sentence) if name}
            assert names <= set(each.facts)


@pytest.mark.parametrize(("system", "text"), [("ip", "1/4 in"), ("si", "6 mm")])
def test_thickness_is_told_in_the_units_of_the_reader(found, system, text):
    thin = next(each for each in found if each.outcome == "thin toward a room")
    assert text in told(thin, system).text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("measured", "figure", "limit"),
    # 3.37 deg C is 38.07 degF; two that are the same stay as they are
    [
        (Measured(Quantity(3.37, "temperature"), Quantity(3.39, "temperature"), True), *DEGREES),
        (Measured(Quantity(0.1385, "u_value"), Quantity(0.1363, "u_value")), "0.0244", "0.0240"),
        (Measured(Quantity(0.7, "factor"), Quantity(0.7, "factor")), "0.70", "0.70"),
        (Measured(Quantity(0.7, "factor"), Quantity(0.8, "factor")), "0.70", "0.80"),
    ],
)
def test_a_figure_never_reads_like_a_limit_that_it_misses(measured, figure, limit):
    finding = Finding("lead paint", "found", Severity.MEND, (), {}, measured, None)
    texts = told(finding, "ip")
    assert figure in texts.figure
    assert limit in texts.limit
