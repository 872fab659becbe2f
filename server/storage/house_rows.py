"""A house file with keys to rows and back. Attributes of rows are named as the file's fields."""

from __future__ import annotations

import functools
import hashlib
import uuid
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel
from sqlalchemy import inspect
from sqlalchemy.orm import Composite

from server.files import house_file as hf
from server.storage import models as m

_MONTHLY = tuple(
    name for name, column in vars(m.ClimateMonthRow).items() if name in hf.OwnClimate.model_fields
)
_OWN = ("firm_key", "house_key", "key", "position")
BOOKKEEPING = ("version", "created_at", "changed_at", "archived_at", "binned_at")
_SORTS = ("changes", "spaces", "psi", "openings", "edge_insulation")


@dataclass(slots=True)
class HouseRows:
    """All rows of one house."""

    house: m.HouseRow
    parts: dict[type[m.OfAHouse], list[Any]] = field(default_factory=dict)

    def of(self, table: type[m.OfAHouse]) -> list[Any]:
        """The rows of one table, in order."""
        return self.parts.setdefault(table, [])


def new_key() -> str:
    """A permanent key that nobody can guess."""
    return uuid.uuid4().hex


def with_keys(house: hf.HouseFile) -> hf.HouseFile:
    """The same house; parts that have no key yet get one."""
    if all(part.key is not None for part in _keyed_parts(house)):
        return house
    keyed = house.model_copy(deep=True)
    for part in _keyed_parts(keyed):
        if part.key is None:
            part.key = new_key()
    return keyed


def with_new_keys(house: hf.HouseFile) -> hf.HouseFile:
    """The same house with keys of its own: a copy."""
    return with_keys(hf.HouseFile.model_validate(house.as_written()))


def _keyed_parts(house: hf.HouseFile) -> Iterator[Any]:
    yield from house.spaces.values()
    yield from house.materials.values()
    for assembly in house.assemblies.values():
        yield assembly
        yield from assembly.layers or ()
    yield from house.components
    yield from house.junctions
    for strategy in house.strategies:
        yield strategy
        for change in strategy.changes.values():
            if isinstance(change, hf.LayerChangeEntry):
                yield from change.inside or ()
                yield from change.outside or ()


# To rows


def to_rows(firm_key: str, house_key: str, house: hf.HouseFile) -> HouseRows:
    """The rows of a house whose parts all have keys."""
    made = _Rows(firm_key, house_key)
    made.house_row(house)
    for name, space in house.spaces.items():
        made.part(m.SpaceRow, space, key=space.key, name=name)
    for name, material in house.materials.items():
        made.part(m.MaterialRow, material, key=material.key, name=name)
    for name, assembly in house.assemblies.items():
        made.part(m.AssemblyRow, assembly, key=assembly.key, name=name)
        made.layers(assembly.layers, assembly_key=assembly.key)
    for component in house.components:
        made.part(m.ComponentRow, component, key=component.key)
        if isinstance(component.shading, list):
            made.months(m.ShadingMonthRow, "share", component.shading, component.key or "")
    for junction in house.junctions:
        made.part(m.JunctionRow, junction, key=junction.key)
    for strategy in house.strategies:
        made.strategy(strategy)
    return made.rows


class _Rows:
    def __init__(self, firm_key: str, house_key: str) -> None:
        self.owner = {"firm_key": firm_key, "house_key": house_key}
        self.rows = HouseRows(m.HouseRow(firm_key=firm_key, key=house_key))

    def house_row(self, house: hf.HouseFile) -> None:
        _fill(self.rows.house, house)
        for sort, factors in (("price", house.prices), ("carbon", house.carbon)):
            for fuel, amount in factors.items():
                key = _derived(sort, fuel)
                self.part(m.FuelFactorRow, None, key=key, sort=sort, fuel=fuel, amount=amount)
        if isinstance(house.climate, hf.OwnClimate):
            for month in range(12):
                figures = {
                    name: values[month]
                    for name in _MONTHLY
                    if (values := getattr(house.climate, name)) is not None
                }
                self.part(m.ClimateMonthRow, None, key=_derived("month", str(month)), **figures)
        self.indoor_humidity(house.indoor_humidity)

    def indoor_humidity(self, given: hf.IndoorHumidityEntry | None) -> None:
        shares = (given.relative_humidity if given else None) or ()
        for month, share in enumerate(shares):
            key = _derived("indoor humidity", str(month))
            self.part(m.IndoorHumidityMonthRow, None, key=key, relative_humidity=share)

    def part(self, table: type[m.OfAHouse], entry: BaseModel | None, **attributes: Any) -> Any:
        siblings = self.rows.of(table)
        row = table(**self.owner, position=len(siblings), **attributes)
        if entry is not None:
            _fill(row, entry)
        siblings.append(row)
        return row

    def months(
        self, table: type[m.OfAHouse], name: str, entries: Iterable[hf.Entry], parent: str
    ) -> None:
        for month, entry in enumerate(entries):
            key = _derived(parent, str(month))
            self.part(table, None, key=key, component_key=parent, **{name: entry})

    def layers(self, layers: Iterable[Any] | None, **parent: Any) -> None:
        for layer in layers or ():
            self.part(m.LayerRow, layer, key=layer.key, **parent)

    def strategy(self, strategy: hf.StrategyEntry) -> None:
        key = strategy.key or ""
        self.part(m.StrategyRow, strategy, key=key)
        for sort in _SORTS:
            for target, change in (getattr(strategy, sort) or {}).items():
                own = _derived(key, sort, target)
                facts = {"key": own, "strategy_key": key, "sort": sort, "target": target}
                if isinstance(change, str):
                    self.part(m.ChangeRow, None, **facts, assembly=change)
                elif isinstance(change, hf.Entry):
                    self.part(m.ChangeRow, None, **facts, psi=change)
                else:
                    self.part(m.ChangeRow, change, **facts)
                if isinstance(change, hf.LayerChangeEntry):
                    self.layers(change.inside, change_key=own, side="inside")
                    self.layers(change.outside, change_key=own, side="outside")


def _derived(*parts: str) -> str:
    """The key of a row that is told apart by where it stands."""
    return hashlib.blake2s("\0".join(parts).encode(), digest_size=16).hexdigest()


def _fill(row: m.Row, part: BaseModel, prefix: str = "") -> None:
    """Every field that was given, into the attribute of its name, where the table has it."""
    known = _attributes(type(row))
    for name in part.model_fields_set:
        value = getattr(part, name)
        if isinstance(value, BaseModel):
            _fill(row, value, f"{prefix}{name}__")
        elif f"{prefix}{name}" in known and not _stands_in_rows(value):
            setattr(row, prefix + name, value)


def _stands_in_rows(value: Any) -> bool:
    """Whether a list has rows of its own, or is as good as none."""
    return isinstance(value, list) and (not value or isinstance(value[0], hf.Entry))


@functools.cache
def _attributes(table: type[m.Row]) -> frozenset[str]:
    """Attributes that hold contents: composites, and columns that are part of none."""
    mapper = inspect(table)
    within = {
        property_.key
        for each in mapper.composites
        if isinstance(each, Composite)
        for property_ in each.props
    }
    return (
        frozenset(
            {each.key for each in mapper.composites} | {each.key for each in mapper.column_attrs}
        )
        - within
        - set(_OWN)
    )


# To the house file


def to_house(rows: HouseRows) -> hf.HouseFile:
    """The house of its rows."""
    document = _contents(rows.house, drop=BOOKKEEPING)
    if rows.of(m.ClimateMonthRow):
        months = [_contents(row) for row in rows.of(m.ClimateMonthRow)]
        for name in months[0]:
            document["climate"][name] = [month[name] for month in months]
    if rows.of(m.IndoorHumidityMonthRow):
        shares = [row.relative_humidity for row in rows.of(m.IndoorHumidityMonthRow)]
        document["indoor_humidity"] = {"relative_humidity": shares}
    for row in rows.of(m.FuelFactorRow):
        sort = "prices" if row.sort == "price" else "carbon"
        document.setdefault(sort, {})[row.fuel] = row.amount
    layers = _by_parent(rows.of(m.LayerRow))
    document["format"] = hf.FORMAT
    document["spaces"] = _by_name(rows.of(m.SpaceRow))
    document["materials"] = _by_name(rows.of(m.MaterialRow))
    document["assemblies"] = _by_name(rows.of(m.AssemblyRow))
    for row in rows.of(m.AssemblyRow):
        if row.key in layers:
            document["assemblies"][row.name]["layers"] = layers[row.key]
    document["components"] = _components(rows)
    document["junctions"] = [_keyed(row) for row in rows.of(m.JunctionRow)]
    document["strategies"] = _strategies(rows, layers)
    return hf.HouseFile.from_stored(document)


def _components(rows: HouseRows) -> list[dict[str, Any]]:
    shading: dict[str, list[Any]] = {}
    for row in rows.of(m.ShadingMonthRow):
        shading.setdefault(row.component_key, []).append(row.share)
    made = []
    for row in rows.of(m.ComponentRow):
        contents = _keyed(row)
        if row.key in shading:
            contents["shading"] = shading[row.key]
        made.append(contents)
    return made


def _strategies(rows: HouseRows, layers: Mapping[Any, list[Any]]) -> list[dict[str, Any]]:
    made = {row.key: _keyed(row) for row in rows.of(m.StrategyRow)}
    for row in rows.of(m.ChangeRow):
        change: Any = _contents(row, drop=("strategy_key", "sort", "target"))
        for side in ("inside", "outside"):
            if (row.key, side) in layers:
                change[side] = layers[row.key, side]
        if row.sort == "psi":
            change = row.psi
        elif row.assembly is not None:
            change = row.assembly
        made[row.strategy_key].setdefault(row.sort, {})[row.target] = change
    return list(made.values())


def _by_parent(rows: Iterable[m.LayerRow]) -> dict[Any, list[dict[str, Any]]]:
    """Layers by their assembly, or by their change and side."""
    made: dict[Any, list[dict[str, Any]]] = {}
    for row in rows:
        parent = row.assembly_key or (row.change_key, row.side)
        contents = _contents(row, drop=("assembly_key", "change_key", "side"))
        made.setdefault(parent, []).append(contents | {"key": row.key})
    return made


def _by_name(rows: Iterable[Any]) -> dict[str, dict[str, Any]]:
    return {row.name: _contents(row, drop=("name",)) | {"key": row.key} for row in rows}


def _keyed(row: Any) -> dict[str, Any]:
    return _contents(row) | {"key": row.key}


def _contents(row: m.Row, drop: tuple[str, ...] = ()) -> dict[str, Any]:
    """What a row holds, nested as in the file; what is null is left out."""
    made: dict[str, Any] = {}
    for name in _attributes(type(row)) - set(drop):
        value = getattr(row, name)
        if value is None:
            continue
        *outer, last = name.split("__")
        here = made
        for step in outer:
            here = here.setdefault(step, {})
        here[last] = value
    return made


def columns_of(row: m.Row) -> dict[str, Any]:
    """A row's columns by name; attributes that were never set are null."""
    held = row.__dict__  # past the attributes' machinery: a house has some twenty thousand
    return {column: held.get(name) for column, name in _columns(type(row))}


@functools.cache
def _columns(table: type[m.Row]) -> tuple[tuple[str, str], ...]:
    attributes = inspect(table).column_attrs
    return tuple((attribute.columns[0].name, attribute.key) for attribute in attributes)
