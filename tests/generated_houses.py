"""House files out of the models: every field is given now and then, whatever fields there are.

They are valid as files; most could not be computed. All names are invented.
"""

from __future__ import annotations

import functools
import types
import typing
from typing import Any, Literal, Union, get_args, get_origin

from hypothesis import strategies as st
from pydantic import BaseModel

from server.files import house_file as hf
from server.files.schema import ALTERNATIVES
from server.units import KINDS, UnitError, read_quantity

TRICKY = (
    "key",
    "name",
    "value",
    "layers",
    "north wall",
    "5/8 \" board, 50 % 'old'",
    "a%2Fb",
    "..",
    "Dämmstoff, Straße 7",
    "墙 😀",
    "<b>&amp;</b>",
    "back\\slash",
    " ",
    "x" * 200,
)
NAMES = st.sampled_from(TRICKY) | st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="\0"), min_size=1, max_size=8
)
NUMBERS = st.sampled_from((0, 1, 3, -2, 0.5, 1.0, 0.1, 1e-07, 12345678901234567890)) | st.floats(
    allow_nan=False, allow_infinity=False, width=32
)
NEEDED = ("layers", "components", "spaces", "mean_temperature")  # lists that are never left empty


@functools.cache
def texts(kind: str) -> tuple[str, ...]:
    """Some ways to write a quantity of a kind."""
    example = KINDS[kind].example
    units = [unit.strip() for unit in KINDS[kind].allowed.split(",")]
    tried = [example, f"  {example}", *(f"{number} {u}" for u in units for number in ("0.5", "7"))]
    return tuple(text for text in tried if _is_read(text, kind))


def _is_read(text: str, kind: str) -> bool:
    try:
        read_quantity(text, kind)
    except UnitError:
        return False
    return True


def quantities(mark: hf.Typed) -> st.SearchStrategy[Any]:
    """A quantity as a file writes it, with and without its basis."""
    plain: st.SearchStrategy[Any] = st.sampled_from(texts(mark.kind)) if mark.kind else NUMBERS
    if isinstance(mark, hf.TypedFlowAt50Pa):
        plain |= NUMBERS
    with_basis = st.fixed_dictionaries({"value": plain, "basis": st.sampled_from(hf.BASES)})
    return plain | with_basis


@functools.cache
def parts(model: type[BaseModel], full: bool) -> st.SearchStrategy[dict[str, Any]]:
    """Any content of a model. full: with every field that can stand beside the others."""
    hints = typing.get_type_hints(model, include_extras=True)
    needed, optional = {}, {}
    for name, field in model.model_fields.items():
        if name != "key":
            given = values(hints[name], name, full=full)
            (needed if full or field.is_required() else optional)[field.alias or name] = given
    made = st.fixed_dictionaries(needed, optional=optional)
    groups = [group for group in ALTERNATIVES if len(group & set(model.model_fields)) > 1]
    if model is hf.AssemblyEntry:
        groups = [{"layers", "u_value"}]
    for group in groups:
        needs_one = model in (hf.AirEntry, hf.AssemblyEntry, hf.ComponentEntry) or (
            model in (hf.EdgeInsulationEntry, hf.IndoorHumidityEntry)
        )
        may_be_none = not needs_one or "soil" in group
        choices = st.sampled_from([*sorted(group), *([None] if may_be_none else [])])
        made = st.builds(
            functools.partial(_only, group),
            made,
            choices,
            st.fixed_dictionaries(
                {name: values(hints[name], name, full=full) for name in sorted(group)}
            ),
        )
    if model is hf.LayerChangeEntry:
        made = st.builds(lambda part, fill: {"fill": fill} | part, made, NAMES)
    if model is hf.OpeningEntry:
        made = st.builds(lambda part, shgc: part or {"shgc": shgc}, made, NUMBERS)
    return made


def _only(group: set[str], part: dict[str, Any], chosen: str | None, given: Any) -> dict[str, Any]:
    kept = {name: each for name, each in part.items() if name not in group}
    return kept | ({} if chosen is None else {chosen: given[chosen]})


def values(hint: Any, name: str = "", *, full: bool) -> st.SearchStrategy[Any]:
    """Any value that a type of the models takes."""
    origin = get_origin(hint)
    if origin is None:
        plain = {bool: st.booleans(), str: NAMES, int: st.integers(0, 100)}
        return plain[hint] if hint in plain else parts(hint, full)
    if origin is typing.Annotated:
        return _annotated(hint, name, full)
    if origin is Literal:
        return st.sampled_from(get_args(hint))
    if origin is list:
        of = values(get_args(hint)[0], full=full)
        return st.lists(of, min_size=int(full or name in NEEDED), max_size=2)
    if origin is dict:
        of = values(get_args(hint)[1], full=full)
        return st.dictionaries(NAMES, of, min_size=int(full or name in NEEDED), max_size=2)
    if origin in (Union, types.UnionType):
        given = [each for each in get_args(hint) if each is not type(None)]
        return st.one_of([values(each, name, full=full) for each in given])
    raise TypeError(f"no values are made of {hint}")


def _annotated(hint: Any, name: str, full: bool) -> st.SearchStrategy[Any]:
    inner, *marks = get_args(hint)
    for mark in marks:
        if isinstance(mark, hf.Typed):
            return quantities(mark)
        bounds = {type(each).__name__: each for each in getattr(mark, "metadata", ())}
        if "Ge" in bounds:
            return st.integers(bounds["Ge"].ge, bounds["Le"].le)
        if bounds.get("MinLen") and bounds["MinLen"].min_length == 12:
            of = values(get_args(inner)[0], full=full)
            return st.lists(of, min_size=12, max_size=12)
    return values(inner, name, full=full)


@st.composite
def houses(draw: st.DrawFn) -> hf.HouseFile:
    """A house file; in every other one all is given that can be."""
    return hf.HouseFile.model_validate(draw(parts(hf.HouseFile, draw(st.booleans()))))


def models(model: type[BaseModel] = hf.HouseFile) -> set[type[BaseModel]]:
    """A model and all those within it."""
    found = {model}
    for hint in typing.get_type_hints(model, include_extras=True).values():
        for each in _models_in(hint):
            found |= {each} if each in found else models(each)
    return found


def _models_in(hint: Any) -> set[type[BaseModel]]:
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        return {hint}
    return {model for each in get_args(hint) for model in _models_in(each)}


def fields_set(part: Any) -> set[tuple[str, str]]:
    """Every field that is given somewhere in a part, as model and name."""
    if isinstance(part, BaseModel):
        own = {(type(part).__name__, name) for name in part.model_fields_set}
        return own.union(*(fields_set(getattr(part, name)) for name in part.model_fields_set))
    if isinstance(part, dict | list):
        inner = part.values() if isinstance(part, dict) else part
        return set().union(*map(fields_set, inner))
    return set()
