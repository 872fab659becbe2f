"""How many statements a page sends to the database, whatever the size of what it shows."""

import pytest

from server.storage.models import HOUSE_PARTS
from tests.stored_houses import demo_file, many_parts, queries, small_file, statements

WHO = 1  # who asks
HOUSE = 1 + len(HOUSE_PARTS)


def sent_by(site, send):
    with statements(site.database) as sent:
        response = send(site.visitor(site.contractor))
    signing_in = 1  # the visitor's session is written first
    assert response.status_code in (200, 303)
    return queries(sent)[signing_in:]


@pytest.mark.parametrize("file", [small_file, demo_file, lambda: many_parts(60)])
@pytest.mark.parametrize(
    ("path", "count"),
    [
        ("", WHO + HOUSE),
        ("/systems", WHO + HOUSE + 1),  # the regions
        ("/seen", WHO + HOUSE),
        ("/assemblies", WHO + HOUSE),
        ("/strategies", WHO + HOUSE),
        ("/history", WHO + HOUSE + 1),
        ("/file", WHO + HOUSE),
    ],
)
def test_a_page_of_a_house(site, file, path, count):
    key = site.store(file())
    assert len(sent_by(site, lambda visitor: visitor.get(f"/houses/{key}{path}"))) == count


@pytest.mark.parametrize("houses", [0, 1, 12])
def test_the_list_of_houses(site, houses):
    for _ in range(houses):
        site.store(small_file())
    for path in ("/houses", "/houses?q=small+house&order=name", "/houses?shelf=bin"):
        sent = sent_by(site, lambda visitor, path=path: visitor.get(path))
        assert len(sent) == WHO + 1


@pytest.mark.parametrize("file", [small_file, demo_file, lambda: many_parts(60)])
def test_an_edit(site, file):
    key = site.store(file())
    part = site.stored(key).house.as_stored()["components"][0]["key"]
    form = {
        "place": f"components/{part}/azimuth",
        "page": f"parts/{part}",
        "value": "13 deg",
    }
    seen = site.stored(key).house.as_stored()["components"][0]["azimuth"]
    form["seen"] = f'"{seen}"'
    sent = sent_by(site, lambda visitor: visitor.post(f"/houses/{key}/edit", form))
    written = [" ".join(each.split()[:2]) for each in sent if not each.startswith("SELECT")]
    assert written == ["UPDATE components", "UPDATE houses", "INSERT INTO"]
    assert len(sent) <= WHO + 2 * HOUSE + len(written)
    assert site.stored(key).version == 2
