"""What the pages of one house show."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from gettext import gettext as _
from typing import Any

from server.accounts.person import Person
from server.core.evaluate import ComponentResult, Result, evaluate
from server.core.explain import graph, year
from server.core.explain.base import Explanation
from server.core.explain.parts import of_part
from server.core.findings.case import Case
from server.core.findings.interstitial import picture_of
from server.core.findings.judging import judge_one
from server.core.house import GROUND_KINDS, OPENINGS, Kind
from server.core.parts import PARTS, part_of
from server.core.strategy import Strategy
from server.drawings.vapour_lines import VapourDrawing, vapour_drawing
from server.explaining.working import assemblies_told, layers_told, once_a_year, working
from server.files import seeds
from server.files.basis import basis_at
from server.files.building import Survey, build_survey
from server.files.house_file import AssemblyEntry, ComponentEntry, HouseFile
from server.files.keyed import Document, Gone, place_of
from server.files.site import site_of
from server.finding_words.side_by_side import FindingRow, side_by_side
from server.pages.house.fields import Field, Fields, Problem, counted_by_basis
from server.pages.house.fitting import not_fitting
from server.pages.house.section_view import section_view
from server.sheet import JOULES_PER_KWH, PART_NAMES, number
from server.storage.houses import Stored
from server.units import N_, System

_GROUND = ("exposed_perimeter", "depth_below_grade", "soil", "wall_thickness")


_EXPLAINED = {
    "resistance": N_("Real R"),
    "u_value": "U",
    "conductance": N_("Area × U"),
    "heating_share": N_("Heat a year"),
}


@dataclass(frozen=True, slots=True)
class Totals:
    """The whole house in two figures, W/K and J a year."""

    heat_loss: float
    heating: float

    @classmethod
    def of(cls, result: Result) -> Totals:
        """The totals of a result."""
        loss = result.to_outdoors + result.to_ground + result.air
        return cls(float(loss), float(result.heating_load_kwh) * JOULES_PER_KWH)

    def change_from(self, before: Totals) -> float | None:
        """Change of the heat loss as a share of what it was."""
        return self.heat_loss / before.heat_loss - 1.0 if before.heat_loss else None


@dataclass(frozen=True, slots=True)
class PartFigures:
    """One component in base units. heat: its share of the year's heating, J."""

    key: str
    name: str
    kind: str
    ends: str
    area: float
    u_value: float
    resistance: float
    label: float | None
    conductance: float
    heat: float
    assembly: str | None
    below_label: float | None


@dataclass(slots=True)
class OpenHouse:
    """A house on a page: as stored, as built, as computed."""

    stored: Stored
    person: Person
    problem: Problem | None = None
    house: HouseFile = field(init=False)
    survey: Survey = field(init=False)
    document: Document = field(init=False)
    fields: Fields = field(init=False)
    result: Result = field(init=False)

    def __post_init__(self) -> None:
        self.house = self.stored.house
        self.survey = build_survey(self.house)
        self.document = self.house.as_stored()
        self.fields = Fields(self.document, self.units, self.problem)
        self.result = evaluate(self.survey.house)

    @property
    def units(self) -> System:
        """The units the person reads."""
        return self.person.units

    @property
    def totals(self) -> Totals:
        """The house as found in two figures."""
        return Totals.of(self.result)

    def parts(self) -> list[PartFigures]:
        """Every component in figures, in the survey's order."""
        return [
            part_figures(entry, each)
            for entry, each in zip(self.house.components, self.result.components, strict=True)
        ]

    def part(self, key: str) -> PartFigures:
        """One component in figures. Raises: Gone."""
        return next((part for part in self.parts() if part.key == key), None) or _gone(key)

    def component(self, key: str) -> ComponentEntry:
        """One component as surveyed. Raises: Gone."""
        found = (each for each in self.house.components if each.key == key)
        return next(found, None) or _gone(key)

    def assembly(self, key: str) -> tuple[str, AssemblyEntry]:
        """An assembly and its name. Raises: Gone."""
        found = ((n, each) for n, each in self.house.assemblies.items() if each.key == key)
        return next(found, None) or _gone(key)

    def common(self, page: str) -> dict[str, Any]:
        """What every page of a house shows."""
        return {
            "house": self.house,
            "key": self.stored.key,
            "base_path": f"/houses/{self.stored.key}",
            "stored": self.stored,
            "page": page,
            "units": self.units,
            "totals": self.totals,
            "climate": self.survey.house.climate,
            "problem": self.problem,
            "made": self.fields.made,
            "not_fitting": not_fitting(self.survey),
            "spaces": list(self.house.spaces),
            "basis_at": functools.partial(basis_at, self.house),
        }


def _gone(key: str) -> Any:
    raise Gone(key)


def part_figures(entry: ComponentEntry, each: ComponentResult) -> PartFigures:
    """A component's figures. below_label: by what share its real R falls short of the label."""
    label = number(each.label_resistance)
    resistance = float(each.resistance)
    return PartFigures(
        key=entry.key or "",
        name=entry.name,
        kind=entry.kind,
        ends=f"{entry.from_} → {entry.to}",
        area=float(each.component.area),
        u_value=float(each.u_value),
        resistance=resistance,
        label=label,
        conductance=float(each.conductance),
        heat=float(each.heating_share_kwh) * JOULES_PER_KWH,
        assembly=entry.assembly,
        below_label=resistance / label - 1.0 if label else None,
    )


def overview(opened: OpenHouse) -> dict[str, Any]:
    """The house by its parts."""
    by_part: dict[str, list[PartFigures]] = {part: [] for part in PARTS}
    for entry, figures in zip(opened.result.components, opened.parts(), strict=True):
        by_part[part_of(entry.component)].append(figures)
    return {
        "groups": [(PART_NAMES[part], parts) for part, parts in by_part.items() if parts],
        "air_heat": float(opened.result.air_heating_share_kwh) * JOULES_PER_KWH,
        "junction_heat": sum(float(j.heating_share_kwh) for j in opened.result.junctions)
        * JOULES_PER_KWH,
        "basis_counts": counted_by_basis(opened.document),
        "kinds": [kind.value for kind in Kind],
        "assemblies": list(opened.house.assemblies),
        "house_explained": house_explained(opened),
    }


def explained_part(result: Result, index: int) -> list[tuple[str, Explanation]]:
    """How the figures of one component come about, by its place in the survey."""
    told = of_part(result, index)
    figures = [(_(name), told[code]) for code, name in _EXPLAINED.items() if code in told]
    layers = layers_told(result, result.components[index].component)
    return [*figures, *(layers.steps if layers else ())]


def explained_in_short(result: Result) -> list[tuple[str, Explanation]]:
    """How the two figures that stand for a result come about."""
    return [
        (_("Heating need a year"), year.heating_need(result)),
        (_("Heat loss per degree"), year.heat_loss(result)),
    ]


def house_explained(opened: OpenHouse) -> list[tuple[str, Explanation]]:
    """How the figures of the whole house come about."""
    result = opened.result
    told: list[tuple[str, Explanation | None]] = [
        *explained_in_short(result),
        (_("To outdoors, without air"), graph.to_outdoors(result)),
        (_("To the ground"), graph.to_ground(result)),
        (_("Outdoor air, yearly mean"), year.mean_air(result)),
        (_("Air changes at 50 Pa"), year.air_changes_at_50_pa(result)),
    ]
    return [(name, explained) for name, explained in told if explained is not None]


def working_page(opened: OpenHouse) -> dict[str, Any]:
    """Everything behind the house as found."""
    return {
        "house_explained": house_explained(opened),
        "tables": working(opened.result),
        "yearly": once_a_year(opened.result),
        "assemblies": assemblies_told([opened.result]),
    }


def vapour_view(
    opened: OpenHouse, index: int, strategy: Strategy | None, result: Result
) -> VapourDrawing | None:
    """Vapour in a component in its worst month, as found or under a strategy."""
    case = Case(opened.result, result, strategy, site_of(opened.house))
    picture = picture_of(case, index)
    return None if picture is None else vapour_drawing(picture)


def findings_of(
    opened: OpenHouse, strategy: Strategy | None, result: Result, component: str | None = None
) -> list[FindingRow]:
    """What could go wrong as found or under a strategy, in the whole house or of one component."""
    judged = judge_one(opened.result, result, strategy, site_of(opened.house))
    if component is not None:
        judged = tuple(
            replace(each, components=(component,))
            for each in judged
            if component in each.components
        )
    return side_by_side([judged], [component or ""], opened.units)


def part_page(opened: OpenHouse, key: str) -> dict[str, Any]:
    """One component: its fields, what it is built of, what comes before and after it."""
    entry = opened.component(key)
    keys = [each.key for each in opened.house.components]
    place = keys.index(key)
    first, more = _field_names(entry)
    assembly = opened.house.assemblies.get(entry.assembly or "")
    return {
        "entry": entry,
        "figures": opened.part(key),
        "figures_explained": explained_part(opened.result, place),
        "fields": opened.fields.of("components", key, names=first),
        "more": opened.fields.of("components", key, names=more),
        "assembly_key": assembly.key if assembly else None,
        "section": section_view(opened.result, place, opened.units),
        "vapour": vapour_view(opened, place, None, opened.result),
        "findings": findings_of(opened, None, opened.result, entry.name),
        "before": keys[place - 1] if place else None,
        "after": keys[place + 1] if place + 1 < len(keys) else None,
        "position": place + 1,
        "count": len(keys),
    }


def _field_names(entry: ComponentEntry) -> tuple[list[str], list[str]]:
    """The fields of a component that every survey needs, and those it seldom does."""
    kind = Kind(entry.kind)
    built = ["u_value", "storm_u_value", "shgc"] if kind in OPENINGS else ["assembly"]
    first = ["area", *built]
    more = ["name", "kind", "from", "to", "assembly" if kind in OPENINGS else "u_value"]
    if kind in GROUND_KINDS:
        first += _GROUND
    elif entry.to == "outdoors":
        first.append("azimuth")
        more += ["tilt", "shading", "solar_absorptance"]
    if kind not in OPENINGS:
        first.append("access")
    return [*first, "wetness", "condition"], [*more, "reached_from"]


def layer_fields(
    fields: Fields, holder: Sequence[str], layer: Document
) -> tuple[list[Field], list[Field]]:
    """The fields of one layer that every survey needs, and those it seldom does."""
    steps = (*holder, layer["key"])
    rest: list[Field] = []
    last: list[Field] = []
    if "framed" in layer:
        made = fields.of(*steps, "framed", names=("fill", "depth", "fraction", "framing"))
        seldom = ("fill_thickness", "open", "aligned", "empty_share", "open_ends")
        rest = fields.of(*steps, "framed", names=seldom)
    elif "air_layer" in layer:
        made = fields.of(*steps, names=("air_layer", "thickness", "opening_area"))
    elif "material" in layer:
        made = fields.of(*steps, names=("material", "thickness"))
        last = [*fields.of(*steps, names=("thinnest",)), *fasteners_fields(fields, steps)]
    else:
        made = fields.of(*steps, names=("resistance",))
    return made, [*rest, *fields.of(*steps, names=("label_resistance", "name")), *last]


def fasteners_fields(fields: Fields, steps: Sequence[str]) -> list[Field]:
    """Screws, nails or ties through a layer."""
    inner = (*steps, "fasteners")
    return [
        *fields.of(*inner, names=("per_area", "diameter", "cross_section", "recess")),
        fields.one(*inner, "material", label=_("Their material, steel where empty")),
    ]


def assembly_page(opened: OpenHouse, key: str) -> dict[str, Any]:
    """One assembly: its layers from inside to outside, and the components built so."""
    name, entry = opened.assembly(key)
    built_so = [part for part in opened.parts() if part.assembly == name]
    places = (i for i, each in enumerate(opened.house.components) if each.assembly == name)
    first = next(places, None)
    document = opened.document["assemblies"][name]
    holder = ("assemblies", key, "layers")
    layers = [
        (layer, *layer_fields(opened.fields, holder, layer)) for layer in document.get("layers", [])
    ]
    own = ["name"] if entry.layers else ["name", "u_value", "storm_u_value"]
    return {
        "name": name,
        "assembly_key": key,
        "layers": layers,
        "fields": opened.fields.of("assemblies", key, names=own),
        "built_so": built_so,
        "figures_explained": [] if first is None else explained_part(opened.result, first),
        "holder": place_of(*holder),
        "has_layers": entry.layers is not None,
        "section": None if first is None else section_view(opened.result, first, opened.units),
    }


def assemblies_page(opened: OpenHouse) -> dict[str, Any]:
    """Every assembly with its real R where a component is built so."""
    parts = opened.parts()
    lines = []
    for name, entry in opened.house.assemblies.items():
        built_so = [part for part in parts if part.assembly == name]
        lines.append((entry.key, name, built_so))
    return {"lines": lines}


_VENTS = ("opening_area", "perimeter", "shielding")


@dataclass(frozen=True, slots=True)
class SpaceLine:
    """A space with its fields. vents: of a crawlspace, in place of typed air changes."""

    name: str
    key: str
    fields: list[Field]
    vents: list[Field]


def spaces_page(opened: OpenHouse) -> dict[str, Any]:
    """Every space."""
    lines = []
    for name, space in opened.house.spaces.items():
        names = ["name", "inside", "volume"]
        if not space.inside and space.crawl_vents is None:
            names.append("air_changes")
        steps = ("spaces", space.key or "")
        vents = opened.fields.of(*steps, "crawl_vents", names=_VENTS)
        lines.append(
            SpaceLine(
                name,
                space.key or "",
                opened.fields.of(*steps, names=names),
                [] if space.inside or space.air_changes is not None else vents,
            )
        )
    return {"lines": lines}


def junctions_page(opened: OpenHouse) -> dict[str, Any]:
    """Every junction."""
    lines = []
    for each, result in zip(opened.house.junctions, opened.result.junctions, strict=True):
        names = ("name", "from", "to", "length", "psi")
        fields = opened.fields.of("junctions", each.key or "", names=names)
        heat = float(result.heating_share_kwh) * JOULES_PER_KWH
        lines.append((each, fields, float(result.conductance), heat))
    return {"lines": lines}


def systems_page(opened: OpenHouse) -> dict[str, Any]:
    """What stands once: the house itself, air, set points, systems, prices."""
    one, of, house = opened.fields.one, opened.fields.of, opened.house
    plant = ("fuel", "efficiency", "distribution", "ducts_in")
    air = next(n for n in ("ach50", "cfm50", "air_changes") if getattr(house.air, n) is not None)
    in_use: dict[str, Any] = dict.fromkeys(
        [house.heating.fuel, *([house.cooling.fuel] if house.cooling else [])]
    )
    return {
        "about": [
            *of(names=("name", "year_built", "floor_area", "bedrooms", "storeys", "thermal_mass"))
        ],
        "regions": [(each.key, each.name) for each in seeds.regions().values()],
        "set_points": of("set_points", names=("heating", "cooling")),
        "air": of("air", names=("ach50", "cfm50", "air_changes", "shelter_class")),
        "air_given": air,
        "ventilation": of("air", "ventilation", names=("flow", "heat_recovery", "balanced")),
        "heating": of("heating", names=plant),
        "cooling": of("cooling", names=plant) if house.cooling else None,
        "prices": [
            one("prices", fuel, label=fuel) for fuel in dict.fromkeys([*in_use, *house.prices])
        ],
        "carbon": [
            one("carbon", fuel, label=fuel) for fuel in dict.fromkeys([*in_use, *house.carbon])
        ],
    }
