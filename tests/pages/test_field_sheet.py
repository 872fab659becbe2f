"""The crew's sheet: in order, complete, without a price, for the firm alone."""

import copy
import re

import pytest

from tests.databases import sqlite_database
from tests.pages.test_open_a_house import well_formed
from tests.recipes.houses import PLASTER, ROOF, WALL, bays, part, project
from tests.recipes.ranch import SEEN, ranch_with_strategies
from tests.stored_houses import WholeSite, changed_file, demo_file, small_file

MONEY = re.compile(r"\$|USD|dollar|\bcents?\b|price|payback", re.IGNORECASE)


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    made = WholeSite(sqlite_database(tmp_path_factory.mktemp("sheet")))
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def house(site):
    return site.store(demo_file())


def path(site, house, index=0):
    return f"/houses/{house}/strategies/{site.stored(house).house.strategies[index].key}"


def sheet(site, house, index=0, person=None):
    answer = site.visitor(person or site.contractor).get(path(site, house, index) + "/field-sheet")
    assert answer.status_code == 200
    well_formed(answer)
    return answer.text


def words(text):
    """What of a page is read."""
    middle = text[text.index("<main") : text.index("</main>")]
    return " ".join(re.sub(r"<[^>]*>", " ", middle).split())


def with_change(house_file, change):
    """The house file with another change of its first strategy."""

    def edit(document):
        document["strategies"][0]["changes"] = change(copy.deepcopy(document))

    return changed_file(house_file, edit)


@pytest.mark.parametrize("index", [0, 1, 2])
def test_no_price_stands_on_it(site, house, index):
    """The strategy's page and its cost are linked; the head of the site has a link to prices."""
    text = sheet(site, house, index).replace("What it costs", "")
    main = text[text.index("<main") : text.index("</main>")]
    assert MONEY.search(main) is None
    assert "USD" not in text
    assert "$" not in text


def test_its_head_says_whose_and_which(site, house):
    text = words(sheet(site, house, 1))
    stored = site.stored(house)
    assert stored.house.name in text
    assert "Exterior continuous" in text
    assert f"House, version {stored.version}" in text
    assert f"{stored.changed_at:%Y-%m-%d}" in text
    assert "Invented Remodelling" in text
    assert "zone 4A" in text
    assert "Local codes and licensed practice decide; nothing here is structural design." in text


def test_chapters_stand_in_order(site, house):
    text = sheet(site, house, 2)
    chapters = ["Order of the job", "What is built", "Where parts meet", "Take care"]
    places = [text.index(f"<h2>{each}</h2>") for each in chapters]
    assert places == sorted(places)
    steps = re.findall(r"<h4>(.*?)</h4>", text)
    assert steps[0].startswith("Before anything")
    assert steps.index("Fill the opened bays, before the wrap") < steps.index("Air barrier")
    assert steps.index("Air barrier") < steps.index("Insulation boards")
    assert steps[-1] == "Test out"


def test_the_wall_is_drawn_and_its_layers_are_marked(site, house):
    text = sheet(site, house, 1)
    assert text.count("<article") == len(re.findall('role="img"', text))
    wall = text[text.index("Wall: north wall and 6 more") :]
    wall = words("<main>" + wall[: wall.index("</article>")] + "</main>")
    assert "softwood board sheathing, 3/4 in kept" in wall
    assert "rigid mineral wool board, 2 in new" in wall
    assert "Comes off: wood lap siding, 1/2 in." in wall
    assert "one every 16 in both ways" in wall
    assert "= 7 in: take 7 in screws." in wall
    assert "north wall 132" in wall
    assert "lead paint likely" in wall


def test_areas_are_those_of_the_parts(site, house):
    text = words(sheet(site, house, 0))
    assert "Drill the bays from outside through the siding, and plug: 903 ft²" in text
    assert "window and door edges 377 ft" in text


def test_the_target_of_the_test_is_told(site, house):
    text = words(sheet(site, house, 1))
    assert "at most 3 air changes an hour at 50 Pa" in text
    assert "carbon monoxide" in text


def test_all_cautions_of_a_blown_old_house(site, house):
    text = words(sheet(site, house, 0))
    for each in ("Lead paint", "Knob-and-tube", "Fibre and dust", "Blowing", "Electrical lines"):
        assert each in text
    assert "isocyanates" not in text


def test_in_the_readers_units(site, house):
    person = site.add("Mette Invented", "mette@example.com", "contractor")
    visitor = site.visitor(person)
    visitor.post("/units", {"units": "si", "return": "/houses"})
    page = visitor.get(path(site, house, 1) + "/field-sheet").text
    text = words(page)
    assert "one every 406 mm both ways" in text
    assert "4.8 mm thick (about No. 10)" in text.replace("\u00a0", " ")
    steps = text[text.index("Steps") : text.index("What is built")].replace("\u00a0", " ")
    assert "vapour-open, 0.60 mm" in steps
    assert "heat recovery, 47 L/s" in steps
    assert "Plywood, 16 mm" in steps
    assert "cfm" not in text[: text.index("What is built")]
    assert "Balanced ventilation, 47 L/s" in text.replace("\u00a0", " ")
    assert "+ 38 mm into the framing = 178 mm: take 178 mm (7 in) screws" in text
    amounts = re.findall(r'class="amount">(.*?)<', page)
    assert len(amounts) > 30
    assert all("ft" not in amount and not amount.endswith("in") for amount in amounts)


def test_another_firm_finds_nothing(site, house):
    address = path(site, house) + "/field-sheet"
    assert site.visitor(site.stranger).get(address).status_code == 404
    assert site.visitor().get(address).headers["location"].startswith("/sign-in")


def test_a_strategy_that_no_longer_fits_has_none(site):
    def misfit(document):
        document["strategies"][0]["changes"] = {"south wall": {"remove": ["not there"]}}

    house = site.store(changed_file(small_file(), misfit))
    address = path(site, house)
    visitor = site.visitor(site.contractor)
    assert visitor.get(address + "/field-sheet").status_code == 404
    assert "field-sheet" not in visitor.get(address).text


def test_a_strategy_that_does_nothing_says_so(site):
    def idle(document):
        document["strategies"] = [{"name": "idle", "recipe": "own"}]

    house = site.store(changed_file(small_file(), idle))
    text = words(sheet(site, house))
    assert "does nothing yet" in text
    assert "Take care" not in text


def test_board_past_a_gap_asks_for_an_engineered_detail(site):
    screws = {"per_area": "0.5625 per ft^2"}
    board = {"material": "rigid mineral wool board", "thickness": "2 in", "fasteners": screws}
    gap = {"air_layer": "slightly ventilated", "thickness": "1 in"}

    def past(gap_or_none):
        change = {"south wall": {"outside": [*gap_or_none, board]}}
        return words(sheet(site, site.store(with_change(small_file(), lambda _document: change))))

    told = "past brick or air behind the board: by an engineered detail only."
    assert told in past([gap])
    assert told not in past([])


def test_thick_board_ends_the_tables(site):
    screws = {"per_area": "0.5625 per ft^2"}
    board = {"material": "rigid mineral wool board", "thickness": "7 in", "fasteners": screws}
    gap = {"air_layer": "well ventilated", "thickness": "3/4 in"}
    siding = {"material": "fibre-cement siding", "thickness": "5/16 in"}

    def thick(_document):
        return {"south wall": {"outside": [board, board, gap, siding]}}

    text = words(sheet(site, site.store(with_change(small_file(), thick))))
    assert "More than 4 in: an engineered fastening detail is needed, the tables end here." in text
    assert "longer than any screw in stock" in text
    assert "silica" in text


def test_what_is_known_only_by_its_u_is_told_without_a_drawing(site):
    def rebuilt(document):
        document["assemblies"]["better wall"] = {"u_value": "0.3 W/(m^2*K)"}
        document["strategies"][0]["changes"] = {"south wall": "better wall"}

    text = sheet(site, site.store(changed_file(small_file(), rebuilt)))
    built = text[text.index("<article") : text.index("</article>")]
    assert 'role="img"' not in built
    assert "only its U is known" in built
    assert "Comes off:" in built


def test_old_fill_and_odd_layers_are_named(site):
    odd = {"resistance": "R-1"}
    gap = {"air_layer": "unventilated", "thickness": "1 in", "name": "old gap"}

    def change(document):
        framed = {"framing": "softwood", "fraction": 0.2, "fill": "air", "depth": "2 in"}
        studs = {
            "framing": "softwood",
            "fraction": 0.2,
            "fill": "glass fibre batt",
            "depth": "4 in",
        }
        lining = {"material": "gypsum board", "thickness": "1/2 in"}
        brick = {"material": "old soft brick", "thickness": "8 in"}
        as_found = [lining, {"framed": framed}, brick, gap, odd, {"framed": studs}]
        document["assemblies"]["odd wall"] = {"layers": as_found}
        screws = {"per_area": "1 per ft^2", "cross_section": "0.02 in^2"}
        board = {"material": "expanded polystyrene", "thickness": "1 in", "fasteners": screws}
        document["assemblies"]["odd wall after"] = {
            "layers": [lining, {"framed": framed}, brick, board]
        }
        document["components"][0]["assembly"] = "odd wall"
        document["strategies"][0]["changes"] = {document["components"][0]["name"]: "odd wall after"}

    text = words(sheet(site, site.store(changed_file(small_file(), change))))
    assert "framing with glass fibre batt" in text
    assert "air layer, 1 in" in text
    assert "a layer of which only R is known" in text
    assert "into masonry" in text


def test_it_is_linked_from_the_strategy_and_its_cost(site, house):
    visitor = site.visitor(site.contractor)
    address = path(site, house)
    for page in ("", "/cost"):
        assert f'href="{address}/field-sheet"' in visitor.get(address + page).text


HOLD = "HOLD: Old wiring"


def holding(text, opening, closing):
    """Words of every group of a stage, or drawn assembly, to whether it is held."""
    blocks = re.findall(f"{opening}(.*?){closing}", text, re.DOTALL)
    told = [words(f"<main>{block}</main>") for block in blocks]
    return {
        each: f"<strong>{HOLD}</strong>" in block for each, block in zip(told, blocks, strict=True)
    }


@pytest.mark.parametrize("index", [0, 2])
def test_what_buries_old_wiring_is_held_on_the_step_itself(site, house, index):
    text = sheet(site, house, index)
    steps = holding(text, '<div class="doing">', "</div>")
    filling = {each: held for each, held in steps.items() if "into the bays" in each}
    assert len(filling) >= 2
    assert all(filling.values())
    assert all(each.startswith(HOLD) for each in filling)
    assert not any(held for each, held in steps.items() if "behind the sun room" in each)
    assert not any(held for each, held in steps.items() if "Scaffold" in each)
    built = holding(text, '<article class="built">', "</article>")
    refilled = [held for each, held in built.items() if "bays filled new" in each]
    assert len(refilled) >= 2
    assert all(refilled)
    assert not any(held for each, held in built.items() if "behind the sun room" in each)


def test_where_nothing_is_stopped_nothing_is_held(site, house):
    """The wrapped house leaves its bays, and the wiring in them, as they are."""
    assert "HOLD" not in sheet(site, house, 1)


def test_what_is_settled_first_has_a_line_each(site, house):
    text = sheet(site, house, 0)
    block = text[text.index('<ul class="matters">') :]
    block = block[: block.index("</ul>")]
    lines = [words(f"<main>{each}</main>") for each in block.split("</li>")[:-1]]
    assert lines[0].startswith("STOP Where: north wall, north wall under the porch, east wall,")
    assert "south wall and 11 more. Old wiring." in lines[0]
    assert "upper east wall" not in lines[0]
    firsts = [line.partition(" Where: ")[0] for line in lines]
    assert set(firsts) == {"STOP", "MEND", "NOT KNOWN"}
    assert firsts == sorted(firsts, key=["STOP", "MEND", "NOT KNOWN"].index)
    assert any("Where: the whole house. Radon" in line for line in lines)


def test_readings_and_a_signature_are_written_at_the_end(site, house):
    text = words(sheet(site, house, 1))
    end = text[text.index("Readings and sign-off") :]
    asked = ("Blower door before", "Blower door after", "Draft", "Carbon monoxide", "Name", "Date")
    assert all(each in end for each in asked)
    assert "cfm at 50 Pa" in end


def test_flues_are_not_read_where_nothing_burns(site):
    def electric(document):
        document["heating"] = {"fuel": "electricity", "efficiency": 1.0}
        document.pop("seen", None)

    text = words(sheet(site, site.store(changed_file(small_file(), electric))))
    end = text[text.index("Readings and sign-off") :]
    assert "Carbon monoxide" not in end
    assert "Blower door after" in end


def test_junctions_fit_the_strategy_and_twins_stand_once(site, house):
    hybrid = words(sheet(site, house, 2))
    hybrid = hybrid[hybrid.index("Where parts meet") : hybrid.index("Take care")]
    assert "south eaves 30 ft , north eaves 30 ft" in hybrid
    assert hybrid.count("Join the air layer of wall and roof at the eave") == 1
    assert "baffle" not in hybrid
    assert "air path" not in hybrid
    assert "under the knee wall" not in hybrid
    assert "done well at: main floor edge at the foundation." in hybrid
    cavity = words(sheet(site, house, 0))
    assert cavity.count("Block every joist bay under the knee wall") == 1
    assert cavity.count("baffles first, the air path 1 in") == 1


def first_step(text):
    text = words(text)
    return text[text.index("Before anything") : text.index("Protect and set up")]


def test_the_first_step_says_each_thing_once(site, house):
    text = first_step(sheet(site, house, 2))
    assert text.count("stained at the chimney") == 1
    assert text.count("knob-and-tube wiring") == 1
    for each in ("drafty", "louver", "weep", "probe wood", "joist bays"):
        assert each not in text
    assert "hairline cracks (basement floor)" in text
    assert "flashing doubtful" in text
    assert "open flue; chimney unlined" in text
    assert "lead paint likely (north wall" in text


def test_lead_paint_is_named_for_the_parts_that_are_touched(site, house):
    """Filling the cavities leaves the gables of the attics alone."""
    cavity = first_step(sheet(site, house, 0))
    assert "lead paint likely (group A)" in cavity
    assert "under the knee wall" in cavity


def test_batts_shallower_than_their_joists_are_held_up(site, house):
    text = words(sheet(site, house, 2))
    assert "six sides" not in text
    assert "tight up against the subfloor" in text.lower()
    assert "held up with wires or netting" in text


def test_thicknesses_and_flows_are_not_as_typed(site, house):
    text = words(sheet(site, house, 2)).replace("\u00a0", " ")
    assert "vapour-open, 0.024 in: 2510 ft²" in text
    assert "heat recovery, 75 cfm" in text
    assert "ft^3/minute" not in text
    assert " mm" not in text


def test_blown_fill_has_its_weight_beside_its_volume(site, house):
    """903.3 ft2, three quarters of it bays of 3 5/8 in, at 56 kg/m3 (3.496 lb/ft3)."""
    text = words(sheet(site, house, 0)).replace("\u00a0", " ")
    assert "Dense-pack cellulose into the bays, 3 5/8 in: 205 ft³, 715 lb before waste" in text
    assert text.count("lb before waste") == 4
    batts = text[text.index("Mineral wool batt between the framing") :]
    assert "lb" not in batts[: batts.index("Where:")]


def test_screws_are_counted_for_all_parts_alike(site, house):
    """903 ft2 of main walls with 0.5625 on each."""
    text = words(sheet(site, house, 2)).replace("\u00a0", " ")
    wall = text[text.index("Wall: north wall and 6 more") :]
    wall = wall[: wall.index("Applies to")]
    assert "Steel screws, 0.19 in thick (about No. 10), one every 16 in" in wall
    assert "take 5 in screws. About 510 screws, before waste." in wall


def test_shingles_on_a_flat_roof_are_warned_of(site, house):
    """The sun room's roof has a slope of 2 in 12, the others of 12 in 12."""
    text = words(sheet(site, house, 2))
    note = "sun-room roof: slope below 4 in 12: shingles need a double underlayment"
    assert text.count("slope below 4 in 12") == 1
    assert note in text
    assert "slope below" not in words(sheet(site, house, 0))


def held_steps(text):
    """Titles of the steps in which something is held."""
    told = text[text.index("<h2>Order of the job") : text.index("<h2>What is built")]
    stages = re.split(r"<h4>", told)[1:]
    return [each[: each.index("</h4>")] for each in stages if "HOLD" in each]


def test_wet_walls_below_grade_hold_only_what_closes_them(site):
    text = sheet(site, ranch_house(site, below_grade="wet"), 1)
    assert held_steps(text) == ["Basement and crawlspace"]


def test_old_wiring_does_not_hold_what_is_taken_off(site, house):
    """Fill waits, and the wrap that would close the bays over it; the siding comes off."""
    held = held_steps(sheet(site, house, 2))
    assert "Take off" not in held
    assert {"Fill the opened bays, before the wrap", "Insulation boards"} <= set(held)


COVER = "Cover the ground of the crawlspace"


def ranch_house(site, **seen):
    file = ranch_with_strategies(seen=SEEN | seen).file
    return site.store(file)


def stage(text, title, following):
    text = words(text)
    return text[text.index(title) : text.index(following)]


def test_bare_ground_is_covered_before_the_crawlspace_is_closed(site):
    sheets = sheet(site, ranch_house(site), 1)
    told = stage(sheets, COVER, "Ventilation")
    assert "laps 6 in and sealed, 6 in up walls" in told
    assert told.index("laps 6 in") < told.index("Basement and crawlspace")
    assert told.index("laps 6 in") < told.index("polystyrene")
    assert "ypsum" not in told
    covered = sheet(site, ranch_house(site, crawl_ground_cover="covered"), 1)
    assert COVER not in words(covered)


def test_bare_ground_is_covered_where_only_the_floor_is_insulated(site):
    text = sheet(site, ranch_house(site), 0)
    told = stage(text, COVER, "Test out")
    assert told.index("laps 6 in") < told.index("Batts")
    assert "Dry walls only" not in told
    assert "Crawlspaces: the air may be bad" in words(text)


def test_windows_in_walls_that_stay_are_told_of_nowhere(site, house):
    text = words(sheet(site, ranch_house(site), 1))
    for each in ("Sill pans", "jamb", "orners", "window and door edges"):
        assert each not in text
    assert "Sill pans" in words(sheet(site, house, 1))


FAN = "First fires out and appliances with an open flue off; on again afterwards."


def sealed_house(site, **seen):
    """Sealed, with board in the attic, and with old fill that those licensed for it take out."""
    loose = bays("vermiculite loose fill", "5 1/2 in", open=True)
    ceiling = part("ceiling", "ceiling", ("indoors", "attic"), [PLASTER, loose], access="open")
    changes = {"ceiling": {"fill": "cellulose loose fill", "fill_thickness": "14 in"}}
    strategy = {"name": "one", "recipe": "own", "changes": changes, "ach50": 5}
    return site.store(project([WALL, ceiling, ROOF], seen=seen, strategies=[strategy]).file)


def held_points(text):
    """Words of every group that is held, and titles of stages whose points are."""
    groups = re.findall('<div class="doing">(.*?)</div>', text, re.DOTALL)
    told = [words(f"<main>{each}</main>") for each in groups if "HOLD" in each]
    return told + re.findall(r'<h4>([^<]*)</h4>\s*<p class="hold">', text)


def test_vermiculite_holds_what_draws_air_but_not_its_test_nor_its_removal(site):
    text = sheet(site, sealed_house(site, loose_fill="vermiculite"))
    held = held_points(text)
    assert any("Air sealing" in each for each in held)
    assert any("into the bays" in each for each in held)
    assert "Blower-door test while leaks can be reached" in held
    assert "Test out" in held
    assert not any("Take out and dispose of vermiculite" in each for each in held)
    assert not any("Permits" in each for each in held)
    assert "Take out and dispose of vermiculite" in words(text)


def test_where_no_vermiculite_was_seen_nobody_waits_with_sealing(site, house):
    held = held_points(sheet(site, house, 2))
    assert held
    assert not any("Air sealing" in each for each in held)
    assert not any(each.startswith(("Blower-door", "Test out")) for each in held)


def test_asbestos_is_tested_before_a_fan_draws_air_past_it(site):
    text = first_step(sheet(site, sealed_house(site, loose_fill="vermiculite")))
    assert "no fan test is made, until it is cleared" in text
    assert text.index("Test for asbestos") < text.index("Blower-door test")
    assert "only once asbestos is cleared" in text


def test_without_asbestos_the_fan_comes_first(site, house):
    text = first_step(sheet(site, house, 2))
    assert "asbestos is cleared" not in text
    assert text.index("Blower-door test before anything is touched") < text.index("Treat the paint")


def test_fires_are_out_wherever_a_fan_runs(site):
    text = words(sheet(site, sealed_house(site)))
    assert text.count(FAN) == 3
    flameless = words(sheet(site, sealed_house(site, combustion="none")))
    assert "fires out" not in flameless
    assert flameless.count("Blower-door test") == text.count("Blower-door test")
