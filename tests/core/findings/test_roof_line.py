"""The insulation moved from an attic's floor to its roof."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.roof_line import RULE
from tests.core.findings.cases import CLOSED_CELL, findings
from tests.recipes.houses import (
    BASEMENT_FLOOR,
    BASEMENT_WALL,
    CEILING,
    FLOOR,
    GABLE,
    ROOF,
    WALL,
    bays,
    part,
    solid,
)

PARTS = [WALL, CEILING, ROOF, GABLE]
MOVED = {"inside": ["attic"]}
WOOL = solid("rigid mineral wool board", "4 in")
FOAM = solid("expanded polystyrene", "4 in")
AIR_BARRIER = solid("self-adhered membrane, vapour-open", "0.6 mm")
NO_FLUES = {"flues_through_attic": False, "loose_fill": "no vermiculite"}
ALWAYS = {"close the vents", "no flues"}


def moved(changes, parts=PARTS, **keys):
    return findings(RULE, parts, changes, does=MOVED, **({"seen": NO_FLUES} | keys))


def roof(**change):
    return {"attic roof": change, "gable": {"inside": [FOAM]}}


def test_nothing_is_said_while_the_attic_stays_outside():
    assert not findings(RULE, PARTS)
    assert not findings(RULE, PARTS, roof(outside=[FOAM]))


def test_a_cellar_brought_inside_is_no_attic():
    hatch = part("hatch", "roof", ("basement", "outdoors"), ROOF["layers"])
    cellar = [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR, hatch]
    assert not findings(RULE, cellar, does={"inside": ["basement"]})


def test_a_buffer_without_a_roof_is_no_attic():
    passage = part("passage wall", "wall", ("passage", "outdoors"), WALL["layers"])
    between = part("wall to the passage", "wall", ("indoors", "passage"), WALL["layers"])
    assert not findings(RULE, [*PARTS, passage, between], does={"inside": ["passage"]})


def test_roofs_and_floors_that_the_attic_does_not_touch_are_left_out():
    other_roof = part("porch roof", "roof", ("indoors", "outdoors"), ROOF["layers"])
    filled = [bays("mineral wool batt")]
    floor = part("floor of the rooms", "inner floor", ("indoors", "indoors"), filled)
    over_cellar = part("cellar ceiling", "floor", ("indoors", "basement"), filled)
    cellar = [over_cellar, BASEMENT_WALL, BASEMENT_FLOOR]
    found = moved(None, [*PARTS, other_roof, floor, *cellar])
    assert set(found["left bare"].components) == {"attic roof", "gable"}
    assert found["no air layer"].components == ("attic roof",)
    assert found["old fill keeps it cold"].components == ("upper ceiling",)


def test_roof_and_gables_left_bare_are_stopped():
    found = moved(None)
    assert set(found) == {"left bare", "no air layer", "old fill keeps it cold", *ALWAYS}
    assert found["left bare"].severity is Severity.STOP
    assert set(found["left bare"].components) == {"attic roof", "gable"}
    assert "left bare" not in moved(roof(outside=[FOAM]))
    only_roof = moved({"attic roof": {"outside": [FOAM]}})
    assert only_roof["left bare"].components == ("gable",)


@pytest.mark.parametrize(
    ("change", "is_open"),
    [
        ({"outside": [WOOL]}, True),
        ({"inside": [bays("mineral wool batt", "5 1/2 in")]}, True),
        ({"outside": [AIR_BARRIER, WOOL]}, False),
        ({"outside": [FOAM]}, False),
        ({"inside": [bays(CLOSED_CELL, "5 1/2 in")]}, False),
        ({"inside": [solid("open-cell sprayed foam", "5 in")]}, False),
    ],
)
def test_what_stops_air_at_the_roof(change, is_open):
    found = moved(roof(**change))
    assert ("no air layer" in found) is is_open
    if is_open:
        assert found["no air layer"].severity is Severity.MEND
        assert found["no air layer"].components == ("attic roof",)


def test_old_fill_in_the_attic_floor():
    done = roof(outside=[FOAM])
    found = moved(done)["old fill kept"]
    assert (found.severity, found.components) == (Severity.WATCH, ("upper ceiling",))
    empty = CEILING | {"layers": [CEILING["layers"][0], bays(depth="5 1/2 in", open=True)]}
    assert "old fill kept" not in moved(done, [WALL, empty, ROOF, GABLE])


def test_old_fill_that_nobody_looked_at_is_not_stirred():
    found = moved(roof(outside=[FOAM]), seen={"flues_through_attic": False})
    assert found["old fill not to be stirred"].components == ("upper ceiling",)
    young = moved(roof(outside=[FOAM]), seen={"flues_through_attic": False}, year_built=1995)
    assert "old fill kept" in young


def test_vents_are_named_by_their_space():
    assert moved(roof(outside=[FOAM]))["close the vents"].facts["spaces"] == ("attic",)


@pytest.mark.parametrize(("ducts", "is_told"), [("attic", True), ("indoors", False)])
@pytest.mark.parametrize("plant", ["heating", "cooling"])
def test_ducts_in_the_attic(plant, ducts, is_told):
    keys = {plant: {"fuel": "electricity", "efficiency": 0.9, "ducts_in": ducts}}
    found = moved(roof(outside=[FOAM]), **keys)
    assert ("ducts inside" in found) is is_told
    if is_told:
        assert found["ducts inside"].severity is Severity.GOOD


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        (True, "flues", Severity.MEND),
        (False, "no flues", Severity.GOOD),
        (None, "flues not looked at", Severity.OPEN),
    ],
)
def test_flues(answer, outcome, severity):
    found = moved(roof(outside=[FOAM]), seen={"flues_through_attic": answer})
    said = {name for name in found if "flues" in name}
    assert said == {outcome}
    assert found[outcome].severity is severity


def test_an_attic_over_thick_old_fill_stays_cold():
    """In balance between rooms and outdoors, minus 8.4 degC in the Twin Cities in January.

    Of equal areas: U 0.213 W/(m2 K) through 11 in of cellulose and its joists; 0.543 through roof
    and gable together: (0.213 x 21.1 - 0.543 x 8.4)/0.756 = minus 0.1 degC.
    """
    kept = bays("cellulose loose fill", "11 in", fill_thickness="11 in", open=True)
    ceiling = CEILING | {"layers": [CEILING["layers"][0], kept]}
    board = solid("polyisocyanurate, foil faced, aged", "3 in")
    change = {
        "attic roof": {
            "remove": ["old roofing", "old felt"],
            "outside": [AIR_BARRIER, board, solid("plywood"), solid("asphalt shingle")],
        },
        "gable": {"outside": [board, solid("wood lap siding")]},
    }
    keys = {"zone": "6A", "climate": {"region": "twin-cities-mn"}}
    found = moved(change, [WALL, ceiling, ROOF, GABLE], **keys)["old fill keeps it cold"]
    assert (found.severity, found.components) == (Severity.MEND, ("upper ceiling",))
    assert found.measured.figure.value == pytest.approx(-0.1, abs=0.3)
    bare = CEILING | {"layers": [CEILING["layers"][0], bays()]}
    assert "old fill keeps it cold" not in moved(change, [WALL, bare, ROOF, GABLE], **keys)
