"""What comes first, by what was found; what is well or denied asks for nothing."""

import re

import pytest

from server.core.findings.said import denies, says
from server.crew.before import Reach, Seen, first_things, is_remarkable, seen_conditions
from server.files.house_file import SeenEntry
from tests.recipes.houses import CEILING, PLASTER, WALL, bays, part, project

LOOKED_AT = {
    "gutters": "sound",
    "flashing": "sound",
    "below_grade": "dry",
    "termites": "no signs",
    "radon": "below 4 pCi/L",
    "combustion": "none",
    "wiring": "modern",
    "loose_fill": "no vermiculite",
    "framing": "platform",
}


def things(*conditions, **seen):
    found = project([WALL | {"condition": list(conditions)}], seen=LOOKED_AT | seen)
    return first_things(found.file)


def test_a_sound_house_looked_at_needs_nothing_first():
    assert things("sound", "dry since the gutters were mended") == ()


@pytest.mark.parametrize(
    ("condition", "word"),
    [
        ("damp at the foot", "water"),
        ("old stain", "water"),
        ("rotten sill", "Structure"),
        ("termite tunnels", "Structure"),
        ("mortar soft", "masonry"),
        ("lead paint likely", "lead paint"),
        ("knob-and-tube wiring seen", "electrician"),
        ("vermiculite seen", "asbestos"),
        ("roofing near its end", "roofing"),
        ("joist bays open", "bays"),
        ("sashes rattle", "leaks air"),
        ("drafts at the sill", "leaks air"),
        ("hairline cracks", "ends of cracks"),
        ("cracked rafter", "Structure"),
        ("plaster cracked", "plaster"),
        ("stained at the chimney", "water"),
        ("weep holes blocked", "weep"),
        ("dry rot at the sill", "Structure"),
        ("sound except for a leak", "water"),
    ],
)
def test_each_condition_asks_for_its_own(condition, word):
    (told,) = things(condition)
    assert word in told.words
    assert told.found == (Seen(condition, ("wall of studs",)),)


@pytest.mark.parametrize(
    ("words", "word"),
    [
        ("sound, two rafters cracked", "Structure"),
        ("sound (two cracked rafters)", "Structure"),
        ("fair, sagging ridge", "Structure"),
        ("good, knob-and-tube in attic", "electrician"),
        ("good; asbestos siding", "asbestos"),
        ("good knob-and-tube", "electrician"),
        ("dry now, leaked in 2019", "water"),
        ("dry now but stained", "water"),
        ("fair amount of damp", "water"),
        ("sound, no gutters", "water"),
        ("dry, no stains, rotten sill", "Structure"),
        ("sound chimney, unlined", "flue"),
        ("fair, paint worn", "decide"),
        ("sound. Hole beside the vent", "decide"),
        ("sound but for one corner", "decide"),
        ("no leaks, hole beside the vent", "decide"),
        ("drafty, rotten sill", "Structure"),
    ],
)
def test_what_goes_on_after_a_good_word_is_said(words, word):
    assert is_remarkable(words)
    assert any(word in each.words for each in things(words)), words


@pytest.mark.parametrize(
    "words",
    [
        "sound, dry",
        "good; no leaks",
        "sound, no rot, no stains",
        "Fair condition",
        "sound mortar",
        "good gutters and downspouts",
        "sound beams",
        "good, no gutter leaks",
        "dry and sound",
        "as new",
        "dry since the gutters were mended",
        "sound since the rotten sill was replaced",
        "still dry, louver",
    ],
)
def test_what_is_well_to_the_end_asks_for_nothing(words):
    assert not is_remarkable(words)
    assert things(words) == ()


@pytest.mark.parametrize(
    "words",
    [
        "leaky windows",
        "air leaks at outlets",
        "leaks air at the rim",
        "leaky old door",
        "air-leaks",
    ],
)
def test_leaks_of_air_are_no_water(words):
    (thing,) = things(words)
    assert "leaks air" in thing.words


@pytest.mark.parametrize(
    "words", ["leaky roof", "leaking window", "roof leaks", "leaky roof over windows", "leaky"]
)
def test_leaks_of_water_are_water(words):
    (thing,) = things(words)
    assert "water" in thing.words


@pytest.mark.parametrize("words", ["sound", "dry", "drafty", "very drafty", "louver", "fill thin"])
def test_what_is_no_finding_asks_for_nothing(words):
    assert things(words) == ()


def test_a_condition_is_said_once_though_it_asks_for_two_things():
    told = things("rotten sill, leak above")
    assert [each.words.split()[0] for each in told] == ["Stop", "Structure"]
    assert [len(each.found) for each in told] == [1, 0]


def test_what_is_said_of_a_part_is_not_said_of_the_house_again():
    (thing,) = things("knob-and-tube wiring seen", wiring="knob-and-tube")
    assert thing.found == (Seen("knob-and-tube wiring seen", ("wall of studs",)),)


def test_weep_holes_are_only_named_where_there_are_some():
    assert "weep" not in things("mortar soft")[0].words


def test_lead_paint_is_named_where_the_work_reaches():
    found = project([WALL | {"condition": ["lead paint likely"]}], seen=LOOKED_AT)
    assert first_things(found.file, Reach(frozenset({"roof"}))) == ()
    assert len(first_things(found.file, Reach(frozenset({"wall of studs"})))) == 1
    house = project([WALL], seen=LOOKED_AT | {"lead_paint": "found"})
    assert len(first_things(house.file, Reach(frozenset({"roof"})))) == 1


def test_bays_between_rooms_are_not_blocked():
    found = project([CEILING | {"condition": ["joist bays open at the foot"]}], seen=LOOKED_AT)
    assert len(first_things(found.file)) == 1
    assert first_things(found.file, Reach(None, frozenset({"attic"}))) == ()


def test_vermiculite_among_the_layers_is_tested_first():
    loose = bays("vermiculite loose fill", "5 1/2 in", open=True)
    ceiling = part("ceiling", "ceiling", ("indoors", "attic"), [PLASTER, loose])
    (thing,) = first_things(project([ceiling], seen=LOOKED_AT).file)
    assert thing.code == "asbestos"
    assert thing.found == (Seen("vermiculite loose fill", ("ceiling",)),)
    assert first_things(project([CEILING], seen=LOOKED_AT).file) == ()


def test_what_no_rule_knows_is_said_all_the_same():
    (thing,) = things("bees in the wall")
    assert "decide" in thing.words
    assert thing.found == (Seen("bees in the wall", ("wall of studs",)),)


@pytest.mark.parametrize(
    ("seen", "word"),
    [
        ({"gutters": "leaking"}, "water"),
        ({"ground_slope": "toward the house"}, "water"),
        ({"ground_slope": "level"}, "water"),
        ({"below_grade": "wet"}, "water"),
        ({"crawl_ground_cover": "bare"}, "water"),
        ({"flashing": "doubtful"}, "flashing"),
        ({"termites": "signs"}, "insects"),
        ({"radon": "4 pCi/L or more"}, "radon"),
        ({"combustion": "open flue"}, "draft"),
        ({"chimney": "unlined"}, "draft"),
        ({"wiring": "knob-and-tube"}, "electrician"),
        ({"loose_fill": "vermiculite"}, "asbestos"),
        ({"asbestos": "suspected"}, "asbestos"),
        ({"lead_paint": "found"}, "lead"),
        ({"framing": "balloon"}, "Block"),
        ({"plaster": "loose"}, "plaster"),
        ({"veneer_weeps": "blocked or none"}, "weep"),
        ({"beams_in_masonry": True}, "Structure"),
    ],
)
def test_what_was_seen_in_the_house_asks_too(seen, word):
    assert any(word in each.words for each in things("sound", **seen)), seen


def test_paint_that_was_tested_asks_for_nothing():
    assert things("sound", lead_paint="tested, none") == ()
    assert seen_conditions(SeenEntry(lead_paint="tested, none")) == ()
    assert things("lead paint likely", lead_paint="tested, none") == ()
    (thing,) = things("lead paint found", lead_paint="tested, none")
    assert "lead paint" in thing.words


@pytest.mark.parametrize("words", ["lead flashing worn", "downspouts lead to the street"])
def test_the_verb_and_the_metal_are_no_paint(words):
    assert not any("paint" in each.words for each in things(words))
    assert any("paint" in each.words for each in things(f"{words}, lead-based paint"))


def test_wetness_of_a_part_counts():
    found = project([WALL | {"wetness": "damp"}], seen=LOOKED_AT)
    (thing,) = first_things(found.file)
    assert thing.found == (Seen("damp", ("wall of studs",)),)


def test_what_nobody_looked_at_is_said():
    (thing,) = first_things(project([WALL]).file)
    assert "wiring" in thing.words
    assert thing.found == ()


@pytest.mark.parametrize("words", ["no lead paint", "lead paint: none", "never had lead"])
def test_what_is_denied_is_not_said(words):
    pattern = re.compile(r"\blead\b")
    assert not says(pattern, words)
    assert denies(pattern, words)


def test_what_is_not_mentioned_is_neither_said_nor_denied():
    pattern = re.compile(r"\blead\b")
    assert not says(pattern, "sound")
    assert not denies(pattern, "sound")
    assert not is_remarkable("Sound")


def test_old_wiring_that_is_replaced_or_dead_asks_for_nothing():
    assert things("knob-and-tube wiring seen", wiring="replaced or dead") == ()
    (thing,) = things("knob-and-tube wiring by a wet sill", wiring="replaced or dead")
    assert "water" in thing.words
