"""What may stand at a place of a stored house: read off the models of the house file."""

from __future__ import annotations

import functools
import types
import typing
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from server.files import house_file as hf
from server.files.keyed import Document, Gone, place_of, split, value_at

Sort = Literal[
    "quantity",
    "number",
    "text",
    "whole number",
    "yes or no",
    "choice",
    "words",
    "share",
    "twelve shares",
]

NAMED = ("spaces", "assemblies", "materials")  # parts that stand under their name
ALTERNATIVES = (  # of these only one is given
    {"ach50", "cfm50", "air_changes"},
    {"air_changes", "crawl_vents"},
    {"assembly", "u_value"},
    {"soil", "soil_conductivity"},
    {"width", "depth"},
    {"diameter", "cross_section"},
    {"humidity_class", "relative_humidity"},
    {"region", "station"},
)


@dataclass(frozen=True, slots=True)
class Input:
    """What a field takes. kind: of a quantity. choices: of a choice.

    may_be_unsaid: whether a yes or no may be taken back.
    """

    sort: Sort
    kind: str | None = None
    choices: tuple[str, ...] = ()
    may_be_unsaid: bool = False

    @property
    def has_basis(self) -> bool:
        """Whether the value says how it is known."""
        return self.sort in ("quantity", "number", "twelve shares")


NAME = Input("text")


def input_at(document: Document, place: str) -> Input:
    """What the field at a place takes. Raises: Gone where a house file has no such place."""
    steps = split(place)
    if len(steps) == 3 and steps[0] in NAMED and steps[2] == "name":
        return NAME
    found = _input(document, hf.HouseFile, steps, [])
    if found is None:
        raise Gone(place)
    return found


def alternatives_of(field: str) -> set[str]:
    """The other fields that go when this one is given."""
    return next((group - {field} for group in ALTERNATIVES if field in group), set())


def _input(
    document: Document, model: type[BaseModel], steps: Sequence[str], done: list[str]
) -> Input | None:
    """Step through the models beside the document."""
    if not steps:
        return None
    name, *rest = steps
    field = _fields(model).get(name)
    if field is None:
        return None
    done = [*done, name]
    if field.collects:
        if not rest:
            return None
        done, rest = [*done, rest[0]], rest[1:]
    if not rest:
        return field.input
    models = field.models
    if name == "climate" and rest[0] in ("region", "station"):
        # these can be given whatever sort of climate stands there
        models = tuple(each for each in models if rest[0] in _fields(each))
    return _input(document, _model(document, models, done), rest, done)


def _model(document: Document, models: Sequence[type[BaseModel]], done: list[str]) -> Any:
    """Which of a union's models the part in the document is."""
    if len(models) == 1:
        return models[0]
    part = value_at(document, place_of(*done))
    for model in models:
        needed = [f.alias or n for n, f in model.model_fields.items() if f.is_required()]
        if isinstance(part, dict) and needed and all(name in part for name in needed):
            return model
    if not models:
        raise Gone(place_of(*done))
    return models[-1]


@dataclass(frozen=True, slots=True)
class _Field:
    """collects: a list or mapping, of models or of inputs."""

    collects: bool
    models: tuple[type[BaseModel], ...]
    input: Input | None


@functools.cache
def _fields(model: type[BaseModel]) -> dict[str, _Field]:
    hints = typing.get_type_hints(model, include_extras=True)
    return {
        (field.alias or name): _field(name, hints[name])
        for name, field in model.model_fields.items()
        if name != "key"
    }


def _field(name: str, hint: Any) -> _Field:
    leaves = list(_leaves(hint))
    if name == "shading":
        return _Field(False, (), Input("share"))
    if name == "relative_humidity":
        return _Field(False, (), Input("twelve shares"))
    if leaves == [list, str]:
        return _Field(False, (), Input("words"))
    models = tuple(
        leaf for leaf in leaves if isinstance(leaf, type) and issubclass(leaf, BaseModel)
    )
    inputs = [made for leaf in leaves if (made := _input_of(leaf)) is not None]
    if inputs == [Input("yes or no")] and type(None) in get_args(hint):
        inputs = [Input("yes or no", may_be_unsaid=True)]
    collects = any(leaf in (list, dict) for leaf in leaves)
    return _Field(collects, models, inputs[-1] if inputs and not models else None)


def _input_of(leaf: Any) -> Input | None:
    if isinstance(leaf, hf.Typed):
        return Input("number") if leaf.kind is None else Input("quantity", leaf.kind)
    if isinstance(leaf, tuple):
        return Input("choice", choices=leaf)
    sorts: dict[Any, Sort] = {bool: "yes or no", int: "whole number", str: "text"}
    return Input(sorts[leaf]) if leaf in sorts else None


def _leaves(hint: Any) -> Iterator[Any]:
    """Models, quantity marks, literals, plain types and containers within a type."""
    origin = get_origin(hint)
    if origin is typing.Annotated:
        inner, *marks = get_args(hint)
        quantity = [mark for mark in marks if isinstance(mark, hf.Typed)]
        yield from quantity or _leaves(inner)
    elif origin is Literal:
        yield tuple(get_args(hint))
    elif origin in (list, dict):
        yield origin
        yield from _leaves(get_args(hint)[-1])
    elif origin in (Union, types.UnionType):
        for each in get_args(hint):
            yield from _leaves(each)
    elif hint is not type(None):
        yield hint
