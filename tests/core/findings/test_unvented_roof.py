"""IRC 2021 Table R806.5, from memory: written here a second time by hand."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.unvented_roof import RULE
from tests.core.findings.cases import GYPSUM, findings, the_one
from tests.core.findings.walls import FILM, GAP, roof
from tests.recipes.houses import FELT, SHINGLES, bays, solid

DECK = solid("plywood", "5/8 in")
RAFTERS = bays("mineral wool batt", "7 1/4 in")
CLOSED_CELL = "closed-cell sprayed foam, aged"
TABLE = {"1A": 5, "2A": 5, "3A": 5, "4C": 10, "4A": 15, "5A": 20, "6A": 25, "7": 30, "8": 35}
OWN = {
    "foam of R-5": {
        "conductivity": "0.0288455820 W/(m*K)",  # R-5 an inch
        "group": "rigid-foam",
        "vapour_resistance_factor": 100,
    }
}


def above(resistance):
    foam = solid("foam of R-5", f"{resistance / 5.0:.4f} in")
    return [roof([GYPSUM, RAFTERS, DECK, foam, solid("plywood"), FELT, SHINGLES])]


@pytest.mark.parametrize(("zone", "needed"), TABLE.items())
def test_each_row_of_the_table(zone, needed):
    found = the_one(RULE, above(needed + 0.01), zone=zone, materials=OWN)
    assert found.outcome == "foam, enough"
    assert found.measured.limit.value / 0.1761102 == pytest.approx(needed, rel=1e-4)
    found = the_one(RULE, above(needed - 0.2), zone=zone, materials=OWN)
    assert (found.outcome, found.severity) == ("foam, too thin", Severity.MEND)


def test_fill_alone_against_the_deck_has_to_be_mended():
    empty = [GYPSUM, bays("air", "7 1/4 in"), DECK, FELT, SHINGLES]
    found = the_one(RULE, [roof(empty)], {"roof": {"fill": "dense-pack cellulose"}}, zone="4A")
    assert (found.outcome, found.severity) == ("no air-impermeable insulation", Severity.MEND)
    assert found.facts["board"].value / 0.0254 == 2.5  # R-15 of foam of R-6 an inch


def test_a_roof_that_was_found_so_is_watched():
    layers = [GYPSUM, bays("dense-pack cellulose", "7 1/4 in"), DECK, FELT, SHINGLES]
    found = the_one(RULE, [roof(layers)], zone="4A")
    assert found.outcome == "found without air-impermeable insulation"
    assert found.severity is Severity.WATCH


def test_a_vented_gap_under_the_deck_is_good_from_an_inch_on():
    def vented(gap):
        layers = [GYPSUM, RAFTERS, GAP | {"thickness": gap}, DECK, FELT, SHINGLES]
        return the_one(RULE, [roof(layers)], zone="5A").outcome

    assert vented("1 in") == "vented"  # R806.3
    assert vented("1/2 in") == "vented, too narrow"


def test_open_board_above_the_deck_has_words_of_its_own():
    def board(thickness):
        outer = [solid("rigid mineral wool board", thickness), GAP, solid("plywood"), SHINGLES]
        return the_one(RULE, [roof([GYPSUM, RAFTERS, DECK, *outer])], zone="4A")

    assert board("4 in").outcome == "open board, as much"  # R-16 against R-15
    assert board("4 in").severity is Severity.WATCH
    assert board("3 in").outcome == "open board, less"


def test_board_over_empty_rafters_leaves_nothing_cold():
    outer = [solid("rigid mineral wool board", "4 in"), GAP, solid("plywood"), SHINGLES]
    layers = [GYPSUM, bays("air", "7 1/4 in"), DECK, *outer]
    assert the_one(RULE, [roof(layers)], zone="7").outcome == "all above the deck"


def test_foam_counts_only_at_the_deck():
    inner = solid("polyisocyanurate, foil faced, aged", "3 1/2 in")
    layers = [GYPSUM, inner, RAFTERS, DECK, FELT, SHINGLES]
    outcome = the_one(RULE, [roof(layers)], zone="5A").outcome
    assert outcome == "found without air-impermeable insulation"
    full = [GYPSUM, bays(CLOSED_CELL, "5 1/2 in"), DECK, FELT, SHINGLES]
    assert the_one(RULE, [roof(full)], zone="5A").outcome == "foam alone"


def test_foam_alone_need_not_reach_the_table():
    """IRC 2021 R806.5, item 5.1.1 (memory): R-18 in zone 6 is enough where nothing else insulates.

    The table's R-25 is for foam together with what lets air through.
    """
    alone = [GYPSUM, bays(CLOSED_CELL, "5 1/2 in", fill_thickness="3 in"), DECK, SHINGLES]
    found = the_one(RULE, [roof(alone)], zone="6A")
    assert (found.outcome, found.severity, found.measured) == ("foam alone", Severity.GOOD, None)


@pytest.mark.parametrize(
    ("zone", "cover", "outcome"),
    [
        ("3B", "clay roof tile", "foam, enough"),
        ("2B", "concrete roof tile", "foam, enough"),
        ("3A", "clay roof tile", "foam, too thin"),
        ("3B", "asphalt shingle", "foam, too thin"),
    ],
)
def test_nothing_is_asked_under_tiles_in_the_dry_south(zone, cover, outcome):
    layers = [GYPSUM, RAFTERS, DECK, solid("foam of R-5", "1/2 in"), solid(cover)]
    assert the_one(RULE, [roof(layers)], zone=zone, materials=OWN).outcome == outcome


def test_open_cell_foam_needs_a_retarder_in_the_cold():
    layers = [GYPSUM, bays("open-cell sprayed foam", "9 1/4 in"), DECK, FELT, SHINGLES]
    assert the_one(RULE, [roof(layers)], zone="5A").outcome == "open-cell foam, no retarder"
    assert the_one(RULE, [roof(layers)], zone="4A").outcome == "foam alone"
    painted = {"inside_paint": "vapour retarder"}
    assert the_one(RULE, [roof(layers)], zone="5A", seen=painted).outcome == "foam alone"


def test_a_thin_coat_of_closed_cell_foam_is_not_called_open_cell():
    """By mu 60, one perm (s_d 3.50 m) takes 58 mm, 2 1/2 in in steps of 1/2 in."""
    coat = bays(CLOSED_CELL, "9 1/4 in")
    coat["framed"]["fill_thickness"] = "2 in"
    layers = [GYPSUM, coat, DECK, FELT, SHINGLES]
    found = the_one(RULE, [roof(layers)], zone="5A")
    assert (found.outcome, found.severity) == ("thin foam, no retarder", Severity.MEND)
    assert found.facts["board"].value / 0.0254 == pytest.approx(2.5)
    coat["framed"]["fill_thickness"] = "2 1/2 in"
    assert the_one(RULE, [roof(layers)], zone="5A").outcome == "foam alone"


def test_no_film_under_rafters_that_are_not_vented():
    layers = [GYPSUM, FILM, RAFTERS, DECK, solid("foam of R-5", "5 in"), SHINGLES]
    found = the_one(RULE, [roof(layers)], zone="5A", materials=OWN)
    assert (found.outcome, found.severity) == ("tight ceiling", Severity.MEND)


def test_a_ceiling_of_boards_is_no_deck():
    layers = [solid("plank decking", "1 in"), RAFTERS, GAP | {"thickness": "1 1/2 in"}, DECK]
    assert the_one(RULE, [roof([*layers, SHINGLES])], zone="5A").outcome == "vented"


def test_it_is_silent_of_bare_roofs_and_open_without_a_zone():
    assert findings(RULE, [roof([DECK, FELT, SHINGLES])], zone="5A") == {}
    assert the_one(RULE, [roof([GYPSUM, RAFTERS, DECK])], zone=None).outcome == "zone not known"
