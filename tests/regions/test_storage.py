"""Versions of a firm's regions, on both databases."""

import pytest

from server.regions.checking import checked_defaults
from server.regions.defaults import seed_regions
from server.storage.houses import StaleVersion
from server.storage.models import RegionRow
from server.storage.people import add_firm
from server.storage.regions import NoSuchRegion, Regions, RegionTaken
from tests.accounts.site import MovedClock

KEY = "piedmont-nc"


@pytest.fixture
def clock():
    return MovedClock()


@pytest.fixture
def firms(database, clock):
    with database.session(writing=True) as session:
        return [add_firm(session, name, clock) for name in ("First Invented", "Other Invented")]


def changed(name="Changed", key=KEY):
    return checked_defaults(seed_regions()[key].as_written() | {"name": name})


def test_the_seeds_stand_as_version_one_without_rows(database, clock, firms):
    with database.session(writing=True) as session:
        current = Regions(session, firms[0], clock).current()
        assert [each.key for each in current] == list(seed_regions())
        assert {(each.version, each.at, each.by) for each in current} == {(1, None, None)}
        assert session.query(RegionRow).count() == 0


def test_a_change_is_a_new_version_and_old_ones_stay(database, clock, firms):
    with database.session(writing=True) as session:
        regions = Regions(session, firms[0], clock)
        assert regions.save(KEY, changed("Second"), 1, "Lee") == 2
        assert regions.save(KEY, changed("Third"), 2, "Lee") == 3
    with database.session(writing=True) as session:
        regions = Regions(session, firms[0], clock)
        names = [regions.load(KEY, version).defaults.name for version in (1, 2, 3)]
        assert names == [seed_regions()[KEY].name, "Second", "Third"]
        now = regions.load(KEY)
        assert (now.version, now.by, now.at) == (3, "Lee", clock())
        assert now.defaults.as_written() == changed("Third").as_written()
        assert [each.version for each in regions.current() if each.key == KEY] == [3]
        assert len(regions.current()) == 8


def test_nothing_changed_is_no_version(database, clock, firms):
    with database.session(writing=True) as session:
        assert Regions(session, firms[0], clock).save(KEY, seed_regions()[KEY], 1, "Lee") == 1
        assert session.query(RegionRow).count() == 0


def test_a_stale_save_is_refused_and_the_session_lives_on(database, clock, firms):
    with database.session(writing=True) as session:
        regions = Regions(session, firms[0], clock)
        regions.save(KEY, changed("Second"), 1, "Lee")
        for base in (1, 3, -1):
            with pytest.raises(StaleVersion):
                regions.save(KEY, changed("Third"), base, "Lee")
        assert regions.load(KEY).defaults.name == "Second"


def test_a_firm_sees_nothing_of_another(database, clock, firms):
    with database.session(writing=True) as session:
        mine, theirs = (Regions(session, firm, clock) for firm in firms)
        mine.save(KEY, changed("Mine"), 1, "Lee")
        own = mine.add(changed("A valley"), "Lee")
        assert theirs.load(KEY).version == 1
        assert len(theirs.current()) == 8
        with pytest.raises(NoSuchRegion):
            theirs.load(own)
        with pytest.raises(NoSuchRegion):
            theirs.load(KEY, 2)


def test_a_region_of_the_firms_own(database, clock, firms):
    with database.session(writing=True) as session:
        regions = Regions(session, firms[0], clock)
        key = regions.add(changed("The High Valley!"), "Lee")
        assert key == "the-high-valley"
        assert regions.load(key).version == 1
        assert regions.save(key, changed("Renamed"), 1, "Lee") == 2
        assert [each.key for each in regions.current()][-1] == key
        for taken in (key, KEY):
            with pytest.raises(RegionTaken):
                regions.add(changed(), "Lee", taken)
        assert len(regions.add(changed("é" * 60), "Lee")) <= 40


@pytest.mark.parametrize(("key", "version"), [("nowhere", None), (KEY, 2), (KEY, 0), ("", None)])
def test_what_is_not_there(database, clock, firms, key, version):
    with (
        database.session(writing=True) as session,
        pytest.raises(NoSuchRegion),
    ):
        Regions(session, firms[0], clock).load(key, version)


def test_a_version_from_before_humidity_and_codes_still_loads(database, clock, firms):
    older = seed_regions()[KEY].as_written() | {"note": "older"}
    del older["energy_code"]
    with database.session(writing=True) as session:
        regions = Regions(session, firms[0], clock)
        regions.save(KEY, checked_defaults(older), 1, "Lee Invented")
        read = regions.load(KEY).defaults
    assert read.indoor_humidity is read.energy_code is None
    assert read.as_written() == older
