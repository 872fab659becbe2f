"""The houses of a firm: lists, shelves, versions, and nothing of another firm's."""

from datetime import datetime, timedelta

import pytest
from sqlalchemy import func, select

from server.storage.houses import BIN, Houses, NoSuchHouse, StaleVersion, empty_bins
from server.storage.models import HOUSE_PARTS, FirmRow, HouseRow, RevisionRow
from tests.accounts.site import MovedClock
from tests.stored_houses import (
    Firm,
    changed_file,
    demo_file,
    many_parts,
    queries,
    small_file,
    statements,
)


@pytest.fixture
def clock():
    return MovedClock()


@pytest.fixture
def firm(database, clock):
    return Firm(database, clock)


@pytest.fixture
def other(database, clock):
    return Firm(database, clock, "Another Invented Firm")


def named(name, year=1938):
    return changed_file(small_file(), lambda document: document.update(name=name, year_built=year))


def names(firm, *given, **options):
    with firm.houses(writing=False) as houses:
        return [line.name for line in houses.listed(*given, **options)]


def rows_left(database):
    with database.session(writing=False) as session:
        tables = (HouseRow, RevisionRow, *HOUSE_PARTS)
        return sum(session.scalar(select(func.count()).select_from(table)) for table in tables)


# Lists


def test_the_list_has_the_last_changed_first(firm, clock):
    keys = []
    for name in ("one", "two", "three"):
        keys.append(firm.add(named(name)))
        clock.move(minutes=1)
    firm.change(keys[0], lambda document: document.update(bedrooms=4))
    assert names(firm, "open") == ["one", "three", "two"]
    with firm.houses(writing=False) as houses:
        line = houses.listed("open")[0]
    assert (line.key, line.version, line.changed_at) == (keys[0], 2, clock.now)


def test_orders_by_name_and_by_year(firm):
    for name, year in (("b", 1960), ("c", 1910), ("a", None)):
        firm.add(
            changed_file(
                small_file(),
                lambda document, name=name, year=year: document.update(name=name, year_built=year),
            )
        )
    assert names(firm, "open", order="name") == ["a", "b", "c"]
    assert names(firm, "open", order="year") == ["c", "b", "a"]


def test_search_takes_every_word_literally_and_in_any_case(firm):
    for name in ("100 % Elm Street", "100 Elm Street", "a_b house", "axb house", "back\\slash"):
        firm.add(named(name))
    found = {
        search: set(names(firm, "open", search))
        for search in ("%", "_", "elm STREET", "street 100", "\\", "a_b", "' OR 1=1 --", "")
    }
    assert found["%"] == {"100 % Elm Street"}
    assert found["_"] == found["a_b"] == {"a_b house"}
    assert found["elm STREET"] == found["street 100"] == {"100 % Elm Street", "100 Elm Street"}
    assert found["\\"] == {"back\\slash"}
    assert found["' OR 1=1 --"] == set()
    assert len(found[""]) == 5


def test_shelves(firm):
    keys = {name: firm.add(named(name)) for name in ("stays", "done", "thrown away")}
    with firm.houses() as houses:
        houses.archive(keys["done"], archived=True)
        houses.bin(keys["thrown away"], binned=True)
    assert names(firm, "open") == ["stays"]
    assert names(firm, "archived") == ["done"]
    assert names(firm, "bin") == ["thrown away"]
    with firm.houses() as houses:
        houses.archive(keys["done"], archived=False)
        houses.bin(keys["thrown away"], binned=False)
    assert set(names(firm, "open")) == set(keys)


def test_an_archived_house_in_the_bin_goes_back_to_the_archive(firm):
    key = firm.add(named("done"))
    with firm.houses() as houses:
        houses.archive(key, archived=True)
        houses.bin(key, binned=True)
    assert names(firm, "archived") == []
    with firm.houses() as houses:
        houses.bin(key, binned=False)
    assert names(firm, "archived") == ["done"]


def test_the_bin_keeps_a_house_for_thirty_days(database, firm, clock):
    key, kept = firm.add(named("thrown away")), firm.add(named("stays"))
    with firm.houses() as houses:
        houses.bin(key, binned=True)
    clock.move(days=30, seconds=-1)
    assert names(firm, "bin") == ["thrown away"]
    assert firm.load(key).binned_at == clock.now - BIN + timedelta(seconds=1)
    with database.session(writing=True) as session:
        assert empty_bins(session, clock) == 0
    clock.move(seconds=1)
    assert names(firm, "bin") == []
    with pytest.raises(NoSuchHouse):
        firm.load(key)
    with database.session(writing=True) as session:
        assert empty_bins(session, clock) == 1
        assert empty_bins(session, clock) == 0
    assert firm.load(kept).house.name == "stays"


def test_bins_of_all_firms_are_emptied_and_leave_no_row(database, firm, other, clock):
    before = rows_left(database)
    for each in (firm, other):
        key = each.add(demo_file())
        each.change(key, lambda document: document.update(bedrooms=5))
        with each.houses() as houses:
            houses.bin(key, binned=True)
    assert rows_left(database) > before + 100
    clock.move(days=31)
    with database.session(writing=True) as session:
        assert empty_bins(session, clock) == 2
    assert rows_left(database) == before


# Versions


def test_revisions_say_who_when_and_what(firm, clock):
    key = firm.add(small_file(), "Lee Invented")
    begun = clock.now
    clock.move(hours=2)
    firm.change(key, lambda document: document["components"][0].update(area="400 ft^2"))
    with firm.houses(writing=False) as houses:
        second, first = houses.revisions(key)
    assert (first.version, first.by, first.at, first.what) == (1, "Lee Invented", begun, [])
    assert (second.version, second.by, second.at) == (2, "Cory Invented", clock.now)
    assert second.what == [
        {"place": "components, south wall, area", "before": "454 ft^2", "after": "400 ft^2"}
    ]
    stored = firm.load(key)
    assert (stored.version, stored.changed_at) == (2, clock.now)


def test_a_revision_lists_twenty_differences_at_most(firm):
    key = firm.add(demo_file())

    def change(document):
        for part in document["components"]:
            part["area"] = "11 m^2"

    firm.change(key, change)
    with firm.houses(writing=False) as houses:
        assert len(houses.revisions(key)[0].what) == 20


def test_what_changes_nothing_is_no_new_version(firm, clock):
    key, at = firm.add(small_file()), clock.now
    clock.move(hours=2)
    assert firm.change(key, lambda _document: None) == 1
    with firm.houses(writing=False) as houses:
        assert len(houses.revisions(key)) == 1
    assert firm.load(key).changed_at == at


@pytest.mark.parametrize(("before", "after"), [(3, 3.0), (1, 1.0), (0, 0.0)])
def test_a_number_written_another_way_is_another_text(firm, before, after):
    key = firm.add(changed_file(small_file(), lambda document: document.update(bedrooms=before)))
    assert firm.change(key, lambda document: document.update(bedrooms=after)) == 2
    assert repr(firm.load(key).house.as_written()["bedrooms"]) == repr(after)


def test_an_earlier_version_comes_back_whole(firm):
    key = firm.add(demo_file())
    first = firm.load(key).house

    def change(document):
        del document["strategies"], document["components"][3:], document["junctions"]
        document["name"] = "half of it"

    firm.change(key, change)
    with firm.houses() as houses:
        houses.save_house(key, houses.version(key, 1), 2, "Lee Invented")
    stored = firm.load(key)
    assert stored.version == 3
    assert stored.house.as_stored() == first.as_stored()
    with firm.houses(writing=False) as houses:
        assert houses.version(key, 2).name == "half of it"
        for version in (0, 4, -1, 10**9):
            with pytest.raises(NoSuchHouse):
                houses.version(key, version)


# Saving


def test_a_stale_version_is_refused_and_nothing_is_saved(firm):
    key = firm.add(small_file())
    house = firm.load(key).house
    firm.change(key, lambda document: document.update(bedrooms=4))
    with firm.houses() as houses, pytest.raises(StaleVersion):
        houses.save_house(key, house, 1, "Cory Invented")
    stored = firm.load(key)
    assert (stored.version, stored.house.as_written()["bedrooms"]) == (2, 4)


def test_two_changes_in_one_session_see_each_other(firm):
    key = firm.add(small_file())
    with firm.houses() as houses:
        stored = kept = houses.load(key, to_change=True)
        for bedrooms in (4, 5):
            changed = changed_file(
                stored.house, lambda document, n=bedrooms: document.update(bedrooms=n)
            )
            houses.save_house(key, changed, stored.version, "Cory Invented")
            stored = houses.load(key)
            assert stored.house.as_written()["bedrooms"] == bedrooms
        assert stored.version == kept.version + 2


@pytest.mark.parametrize("count", [20, 60])
def test_an_edit_of_one_value_writes_the_rows_that_differ(database, firm, count):
    key = firm.add(many_parts(count))
    with firm.houses() as houses:
        stored = houses.load(key, to_change=True)
        house = changed_file(
            stored.house, lambda document: document["components"][7].update(area="99 ft^2")
        )
        with statements(database) as sent:
            houses.save_house(key, house, 1, "Cory Invented")
            houses._session.flush()
    written = [each.split(maxsplit=3)[:3] for each in queries(sent)]
    assert len(written) == 3
    assert [words[:2] for words in written[:2]] == [["UPDATE", "components"], ["UPDATE", "houses"]]
    assert written[2] == ["INSERT", "INTO", "revisions"]


def test_a_house_is_read_in_as_many_queries_whatever_its_size(database, firm):
    counts = []
    for house in (small_file(), many_parts(60), demo_file()):
        key = firm.add(house)
        with statements(database) as sent:
            firm.load(key)
        counts.append(len(queries(sent)))
    assert counts == [1 + len(HOUSE_PARTS)] * 3


def test_parts_that_change_places_are_saved(firm):
    key = firm.add(demo_file())

    def change(document):
        document["components"].reverse()
        document["assemblies"] = dict(reversed(document["assemblies"].items()))
        document["name"] = "turned round"

    house = firm.load(key).house
    firm.change(key, change)
    after = firm.load(key).house
    assert [c.name for c in after.components] == [c.name for c in reversed(house.components)]
    assert list(after.assemblies) == list(reversed(house.assemblies))


def test_a_failure_in_the_middle_leaves_the_old_house(firm):
    key = firm.add(small_file())
    before = firm.load(key)
    changed = changed_file(before.house, lambda document: document.update(bedrooms=9))

    def fail_after_saving():
        with firm.houses() as houses:
            houses.save_house(key, changed, 1, "Cory Invented")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail_after_saving()
    after = firm.load(key)
    assert after.version == 1
    assert after.house.as_stored() == before.house.as_stored()


def test_a_packed_house_is_the_one_in_rows(firm):
    for file in (small_file(), demo_file()):
        key = firm.add(file)
        firm.change(key, lambda document: document.update(bedrooms=5))
        with firm.houses(writing=False) as houses:
            packed = houses.packed(key)
        assert packed.house().as_stored() == firm.load(key).house.as_stored()


# Firms


FOREIGN = {
    "load": lambda houses, key: houses.load(key),
    "load to change": lambda houses, key: houses.load(key, to_change=True),
    "save": lambda houses, key: houses.save_house(key, small_file(), 1, "Sam Invented"),
    "archive": lambda houses, key: houses.archive(key, archived=True),
    "take out of the archive": lambda houses, key: houses.archive(key, archived=False),
    "bin": lambda houses, key: houses.bin(key, binned=True),
    "take out of the bin": lambda houses, key: houses.bin(key, binned=False),
    "revisions": lambda houses, key: houses.revisions(key),
    "version": lambda houses, key: houses.version(key, 1),
    "packed": lambda houses, key: houses.packed(key),
}


@pytest.mark.parametrize("attempt", FOREIGN.values(), ids=FOREIGN)
def test_a_house_of_another_firm_is_no_house(firm, other, attempt):
    key = firm.add(small_file())
    before = firm.load(key)
    for wrong in (key, "f" * 32, ""):
        with other.houses() as houses, pytest.raises(NoSuchHouse):
            attempt(houses, wrong)
    assert firm.load(key) == before


def test_every_method_is_tried_from_another_firm():
    methods = {name for name in vars(Houses) if not name.startswith("_")} - {"listed", "add"}
    tried = {"load", "save_house", "archive", "bin", "revisions", "version", "packed"}
    assert methods == tried


def test_a_list_shows_nothing_of_another_firm(firm, other):
    firm.add(small_file())
    for shelf in ("open", "archived", "bin"):
        assert names(other, shelf) == []


def test_two_firms_may_have_the_same_house(firm, other):
    house = firm.load(firm.add(demo_file())).house
    key = other.add(house)  # with the same keys of parts
    other.change(key, lambda document: document["components"].pop())
    assert len(firm.load(firm.add(house)).house.components) == len(house.components)
    assert len(other.load(key).house.components) == len(house.components) - 1


# Times


def test_a_time_without_its_zone_is_refused(database):
    naive = datetime(2031, 3, 1, 12)
    with (
        pytest.raises(Exception, match="without its zone"),
        database.session(writing=True) as session,
    ):
        session.add(FirmRow(key="0" * 32, name="Invented Firm", created_at=naive))


def test_times_come_back_aware(firm, clock):
    stored = firm.load(firm.add(small_file()))
    assert stored.changed_at == clock.now
    assert stored.changed_at.utcoffset() == timedelta(0)
