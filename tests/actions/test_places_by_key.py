"""Places by keys, and what a place takes."""

import copy
import re
import typing

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from pydantic import BaseModel

from server.files import house_file as hf
from server.files.keyed import (
    Gone,
    part_at,
    place_of,
    set_value,
    split,
    value_at,
)
from server.files.schema import NAMED, alternatives_of, input_at
from server.pages.house.typed import basis_of, raw_value, typed_text
from server.storage.house_rows import with_keys
from tests.actions.documents import demo_document, place
from tests.generated_houses import NAMES, houses, models

MONTHLY = {
    ("OwnClimate", name)
    for name, hint in typing.get_type_hints(hf.OwnClimate, include_extras=True).items()
    if "list" in str(hint)
}


@given(NAMES, NAMES)
def test_a_place_gives_its_steps_back(first, second):
    assert split(place_of(first, second)) == [first, second]


def test_values_are_found_and_set_by_key():
    document = demo_document()
    area = place(document, "components", "east wall", "area")
    assert value_at(document, area) == next(
        part["area"] for part in document["components"] if part["name"] == "east wall"
    )
    set_value(document, area, "1 m^2")
    assert value_at(document, area) == "1 m^2"
    set_value(document, area, None)
    assert value_at(document, area) is None
    volume = place(document, "spaces", "basement", "volume")
    assert value_at(document, volume) == document["spaces"]["basement"]["volume"]


def test_what_holds_a_value_is_made_where_it_is_not_there():
    document = demo_document()
    del document["air"]["ventilation"]
    set_value(document, "air/ventilation/flow", "60 cfm")
    assert document["air"]["ventilation"] == {"flow": "60 cfm"}


@pytest.mark.parametrize(
    "where",
    [
        f"components/{'0' * 32}/area",
        f"components/{'0' * 32}",
        f"spaces/{'0' * 32}/volume",
        "components/0/area",
        "name/x",
        "name/x/y",
        "no such/thing",
        "floor_area/value/x",
    ],
)
def test_what_is_not_there_is_gone(where):
    document = demo_document()
    before = copy.deepcopy(document)
    with pytest.raises(Gone):
        value_at(document, where)
    with pytest.raises(Gone):
        part_at(document, *split(where))
    assert document == before


# What a place takes


def leaves(part, steps=()):
    """Every field that is given and has no fields of its own: its model, name and steps."""
    for name in sorted(part.model_fields_set - {"key"}):
        value = getattr(part, name)
        here = (*steps, type(part).model_fields[name].alias or name)
        if isinstance(value, BaseModel):
            yield from leaves(value, here)
        elif isinstance(value, list) and value and isinstance(value[0], BaseModel):
            for each in value:
                yield from leaves(each, (*here, each.key))
        elif isinstance(value, dict):
            for key, each in value.items():
                if isinstance(each, BaseModel):
                    yield from leaves(
                        each, (*here, each.key if here[-1] in NAMED and not steps else key)
                    )
                elif not isinstance(each, str):
                    yield type(part).__name__, name, (*here, key)
        elif value not in (None, []) and (type(part).__name__, name) not in MONTHLY:
            yield type(part).__name__, name, here


def expected(model, name):
    """What a field takes, read off its type by other means."""
    hint = str(typing.get_type_hints(model, include_extras=True)[name])
    if name == "shading":
        return "share", None
    if name == "relative_humidity":
        return "twelve shares", None
    if "Typed" in hint:
        kind = re.search(r"kind='?(\w+)", hint)[1]
        return ("number", None) if kind == "None" else ("quantity", kind)
    if "Literal" in hint:
        return "choice", None
    for mark, sort in (("list", "words"), ("bool", "yes or no"), ("int", "whole number")):
        if mark in hint.replace("int=", ""):
            return sort, None
    return "text", None


def without_bases(raw):
    """Shares as a field gives them: it has no room for how each is known."""
    if isinstance(raw, list):
        return [without_bases(each) for each in raw]
    return raw["value"] if isinstance(raw, dict) else raw


def test_a_change_of_a_part_named_key_is_no_part_of_that_key():
    """Of a strategy that gives a component “key” the assembly “name”, the name is its own."""
    key = "0" * 31 + "1"
    strategy = {"key": key, "name": "own", "changes": {"key": "name"}}
    document = {"strategies": [strategy]}
    assert value_at(document, f"strategies/{key}/name") == "own"
    set_value(document, f"strategies/{key}/name", "another")
    assert strategy == {"key": key, "name": "another", "changes": {"key": "name"}}


def test_every_field_of_every_model_can_be_typed():
    """What a field shows is read as what was there."""
    by_name = {model.__name__: model for model in models()}
    tried = set()

    @settings(
        max_examples=90,
        deadline=None,
        derandomize=True,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(houses())
    def look(house):
        document = with_keys(house).as_stored()
        for model, name, steps in leaves(hf.HouseFile.from_stored(document)):
            where = place_of(*steps)
            taken = input_at(document, where)
            tried.add((model, name))
            want = expected(by_name[model], name)
            if name in ("prices", "carbon", "psi"):
                want = ("quantity", taken.kind)
            if name == "cfm50":
                want = ("quantity", "flow")
            assert (taken.sort, taken.kind) == want, where
            raw = value_at(document, where)
            text = typed_text(raw)
            if (
                text != text.strip()
                or taken.sort == "words"
                or (name == "cfm50" and text[-1] in "0123456789")
            ):
                continue
            if taken.sort == "twelve shares" and not all(
                0.01 <= x <= 1 for x in without_bases(raw)
            ):
                continue  # no house is stored with such
            read = raw_value(taken, text, basis_of(raw))
            if taken.sort == "twelve shares" and basis_of(raw) == "":
                read, raw = without_bases(read), without_bases(raw)  # of several bases, or of none
            assert read == (without_bases(raw) if taken.sort == "share" else raw)
            assert taken.sort != "choice" or text in taken.choices

    look()
    holders = {
        ("HouseFile", name)
        for name in (
            *("climate", "defaults", "set_points", "gains", "spaces", "air", "heating"),
            *("cooling", "seen", "indoor_humidity", "energy_code"),
            *("materials", "assemblies", "components", "junctions", "strategies"),
        )
    }
    within = {
        ("AirEntry", "ventilation"),
        ("AssemblyEntry", "layers"),
        ("ComponentEntry", "edge_insulation"),
        ("FramedEntry", "framed"),
        ("SolidEntry", "fasteners"),
        ("SpaceEntry", "crawl_vents"),
        ("LayerChangeEntry", "inside"),
        ("LayerChangeEntry", "outside"),
        *(
            ("StrategyEntry", name)
            for name in (
                *("changes", "ventilation", "heating", "cooling", "spaces", "openings"),
                "edge_insulation",
            )
        ),
    }
    fields = {(m.__name__, name) for m in models() for name in m.model_fields if name != "key"}
    assert fields - tried == holders | within | MONTHLY


@pytest.mark.parametrize(
    "where",
    [
        "",
        "nothing",
        "key",
        "components",
        "components/x",
        "components/{part}",
        "components/{part}/key",
        "components/{part}/nothing",
        "components/{part}/area/value",
        "components/{part}/from_",
        "spaces",
        "climate",
        "climate/mean_temperature",
        "air/ventilation",
        "prices",
        "strategies/{strategy}/changes",
        "strategies/{strategy}/changes/wall",
        "strategies/{strategy}/changes/wall/nothing",
        "strategies/{strategy}/changes/wall/outside",
        "__class__",
        "model_config",
    ],
)
def test_a_place_that_no_file_has_is_gone(where):
    document = demo_document()
    keys = {"part": document["components"][0]["key"], "strategy": document["strategies"][1]["key"]}
    with pytest.raises(Gone):
        input_at(document, where.format_map(keys))


@pytest.mark.parametrize("field", ["region", "station"])
def test_every_climate_can_become_a_region_or_a_station(field):
    from tests.stored_houses import small_file

    for document in (demo_document(), with_keys(small_file()).as_stored()):
        assert input_at(document, f"climate/{field}").sort == "text"


def test_alternatives_exclude_each_other():
    assert alternatives_of("ach50") == {"cfm50", "air_changes"}
    assert alternatives_of("u_value") == {"assembly"}
    assert alternatives_of("name") == set()
