"""What the crew's sheet of one strategy shows. No prices: it lies about on the site."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from gettext import gettext as _
from typing import Any

from server.core.evaluate import Result
from server.core.fasteners import INTO_FRAMING
from server.core.findings.judging import judge_one
from server.core.house import OUTDOORS
from server.crew.before import Reach, Seen, first_things, remarkable
from server.crew.cautions import caution_words
from server.crew.fastening import Fastening, fastenings, is_beyond_tables, screw_gauge, to_buy
from server.crew.handled import cautions_of
from server.crew.in_units import in_units
from server.crew.junctions import cold_attics, doings_of, junction_points
from server.crew.part_groups import in_short, lettered
from server.crew.places import placed_items
from server.crew.sequence import Line, StageLines, sequence
from server.crew.stage_words import stage_note, stage_title
from server.files import house_file as hf
from server.files import seeds
from server.files.building import Project
from server.files.site import site_of
from server.finding_words.telling import Told, told
from server.formatting import thickness_text
from server.pages.house.context import OpenHouse
from server.pages.house.section_view import SectionView, section_view
from server.pages.house.sheet_settle import held_by, matters
from server.pages.house.strategy_context import core_strategy
from server.pricing.house_items import flow_at_50, volume_inside
from server.pricing.layer_work import LayerWork, layer_works
from server.pricing.opening_items import is_opening
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from server.recipes.strategy_words import strategy_in_words
from server.units import System, format_quantity, unit_label

_COUNTED = ("opening", "lump sum", "each")
# Told by its volume, since bays are no flat area; the rest that has a thickness by its area.
_BY_VOLUME = frozenset({Step.NEW_FILL, Step.NEW_SPRAYED_FOAM, Step.NEW_FRAMING})
_LEAST_SLOPE = 18.4  # degrees, 4 in 12
_WITHOUT_FLAME = frozenset({"electricity"})


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One thing to do, and how much of it; amount is empty where there is nothing to count."""

    words: str
    amount: str


@dataclass(frozen=True, slots=True)
class SheetGroup:
    """Things that are done in the same places.

    letters: of groups of parts. components: parts beside those. Both empty for the whole house.
    held: titles of the findings that stop the work there.
    """

    letters: tuple[str, ...]
    components: tuple[str, ...]
    lines: tuple[SheetLine, ...]
    held: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SheetStage:
    """One numbered step of the job. points: what is asked in words only."""

    title: str
    note: str | None
    groups: tuple[SheetGroup, ...]
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DrawnLayer:
    """A layer after the work. mark: new, kept or filled, in words."""

    name: str
    thickness: str
    mark: str


@dataclass(frozen=True, slots=True)
class SheetAssembly:
    """An assembly that the work changes, with all parts built so.

    section: None where only its U is known. layers: numbered as in the drawing. removed: from the
    outside in. fasteners, notes: sentences. held: as of a group.
    """

    title: str
    parts: tuple[tuple[str, float], ...]
    section: SectionView | None
    layers: tuple[DrawnLayer, ...]
    removed: tuple[str, ...]
    fasteners: tuple[str, ...]
    notes: tuple[str, ...]
    held: tuple[str, ...]

    @property
    def area(self) -> float:
        """Of all parts, m2."""
        return sum(area for _name, area in self.parts)


def field_sheet(opened: OpenHouse, entry: hf.StrategyEntry, result: Result) -> dict[str, Any]:
    """Everything on the sheet of a strategy that fits the house."""
    project, units = opened.survey.project, opened.units
    works = layer_works(project.file, entry)
    items = take_off(project, entry)
    write = functools.partial(thickness_text, system=units)
    steps = frozenset(item.step for item in items)
    doings = doings_of(project.file, entry, works, steps)
    stages = sequence(placed_items(project.file, works, items))
    groups = lettered(line.components for stage in stages for line in stage.lines)
    findings = _findings(opened, entry, result)
    # junctions have a chapter of their own
    whole = strategy_in_words(entry.model_copy(update={"psi": None}), project.file)
    return {
        "entry": entry,
        "house": opened.house,
        "stored": opened.stored,
        "units": units,
        "climate": opened.survey.house.climate,
        "firm": opened.person.firm_name,
        "whole": [in_units(each, units, _names(project.file)) for each in whole],
        "part_groups": groups,
        "settle": matters(findings),
        "stages": sheet_stages(project, entry, stages, groups, findings, units),
        "assemblies": sheet_assemblies(project.file, works, result, findings, units),
        "junctions": junction_points(project.file, entry, doings, write) if items else (),
        "cautions": [caution_words(code) for code in cautions_of(project.file, works, items)],
        "readings": _readings(project.file, entry, units),
    }


def _findings(opened: OpenHouse, entry: hf.StrategyEntry, result: Result) -> list[Told]:
    strategy = core_strategy(opened, entry.name)
    judged = judge_one(opened.result, result, strategy, site_of(opened.house))
    return [told(finding, opened.units) for finding in judged]


def _readings(file: hf.HouseFile, entry: hf.StrategyEntry, units: System) -> list[tuple[str, str]]:
    """What is written down by hand at the end, each with the unit of its line."""
    flow = _("{flow} at 50 Pa").format(flow=unit_label("flow", units))
    burning = [
        (_("Draft of each flue, at the worst case"), "Pa"),
        (_("Carbon monoxide in the flue"), "ppm"),
        (_("Carbon monoxide in the rooms"), "ppm"),
    ]
    return [
        (_("Blower door before the work"), flow),
        (_("Blower door after the work"), flow),
        *(burning if _burns(file, entry) else ()),
        (_("Name"), ""),
        (_("Signed"), ""),
        (_("Date"), ""),
    ]


# The sequence


def sheet_stages(
    project: Project,
    entry: hf.StrategyEntry,
    stages: Sequence[StageLines],
    groups: Mapping[str, tuple[str, ...]],
    findings: Sequence[Told],
    units: System,
) -> list[SheetStage]:
    """The numbered steps, in the crew's order. groups: letters of parts."""
    lines = [line for stage in stages for line in stage.lines]
    tests = sum(line.amount for line in lines if line.step is Step.BLOWER_DOOR_TEST)
    touched = frozenset(name for line in lines for name in line.components)
    reach = Reach(touched, frozenset(entry.inside or ()))
    attics_inside = bool(reach.inside) and not cold_attics(project.file, entry)
    points = {
        "before": tuple(_before(project.file, tests, reach, groups)),
        "test out": tuple(_test_out(project, entry, tests, units)),
    }
    areas = {component.name: component.area.value for component in project.file.components}
    return [
        SheetStage(
            title=stage_title(stage.code),
            note=stage_note(stage.code, attics_inside),
            groups=tuple(_groups(stage, areas, groups, _names(project.file), findings, units)),
            points=points.get(stage.code, ()),
        )
        for stage in stages
    ]


def _groups(
    stage: StageLines,
    areas: Mapping[str, float],
    groups: Mapping[str, tuple[str, ...]],
    names: Iterable[str],
    findings: Sequence[Told],
    units: System,
) -> Iterator[SheetGroup]:
    """Lines that follow each other in the same places stand together, so that these stand once."""
    lines = [line for line in stage.lines if line.step is not Step.BLOWER_DOOR_TEST]
    for components, found in itertools.groupby(lines, key=lambda line: line.components):
        made = tuple(
            SheetLine(in_units(line.words, units, names), _amount(line, areas, units))
            for line in found
        )
        yield SheetGroup(*in_short(components, groups), made, held_by(components, findings))


def _names(file: hf.HouseFile) -> frozenset[str]:
    """What is called by a name of its own."""
    return frozenset(file.spaces) | {component.name for component in file.components}


def _amount(line: Line, areas: Mapping[str, float], units: System) -> str:
    """How much, in the reader's units; openings are counted."""
    if line.unit in _COUNTED:
        return f"{line.amount:.0f}" if line.unit == "opening" else ""
    if line.unit == "linear ft":
        return format_quantity(line.amount, "length", units, 0)
    if line.unit == "ft2":
        return format_quantity(line.amount, "area", units)
    if line.step in _BY_VOLUME or not line.thickness:
        return format_quantity(line.amount, "volume", units) + _weight(line, units)
    area = line.amount / line.thickness
    text = format_quantity(area, "area", units)
    if area > 1.01 * sum(areas.get(name, area) for name in line.components):
        return _("{area} in all layers").format(area=text)
    return text


def _weight(line: Line, units: System) -> str:
    """Of blown fill, as it is bought; nothing where its density is not known."""
    material = seeds.materials().get(line.material or "")
    if line.step is not Step.NEW_FILL or material is None or material.density is None:
        return ""
    mass = format_quantity(line.amount * float(material.density), "mass", units, 0)
    return _(", {mass} before waste").format(mass=mass)


def _before(
    file: hf.HouseFile, tests: float, reach: Reach, groups: Mapping[str, tuple[str, ...]]
) -> Iterator[str]:
    if tests > 1.0:
        yield _("Blower-door test before anything is touched; write the figure down.")
    for thing in first_things(file, reach):
        if thing.found:
            found = "; ".join(_seen_words(each, groups) for each in thing.found)
            yield _("{thing} Found: {found}.").format(thing=thing.words, found=found)
        else:
            yield thing.words


def _seen_words(seen: Seen, groups: Mapping[str, tuple[str, ...]]) -> str:
    """What the survey says, and where in short."""
    if not seen.components:
        return seen.words
    letters, others = in_short(seen.components, groups)
    where = ", ".join((*(_("group {letter}").format(letter=each) for each in letters), *others))
    return f"{seen.words} ({where})"


def _test_out(
    project: Project, entry: hf.StrategyEntry, tests: float, units: System
) -> Iterator[str]:
    file = project.file
    if tests:
        yield _target(file, entry, units)
    if _burns(file, entry):
        yield _(
            "Something burns in this house: with all fans on and doors as they are worst, test "
            "draft and spillage of every appliance with a flue, and carbon monoxide in the flue "
            "and in the rooms; repeat after every step that tightens. Carbon-monoxide alarms on "
            "every storey. What fails stays off."
        )
    yield _("Infrared camera or probe over filled bays; photographs and figures into the job file.")


def _target(file: hf.HouseFile, entry: hf.StrategyEntry, units: System) -> str:
    flow = flow_at_50(entry, volume_inside(file, entry.inside or ()))
    if flow is None or entry.air_changes is not None:
        return _("Blower-door test: write the figure down and compare with the one before.")
    target = format_quantity(flow, "flow", units, 0)
    if entry.ach50 is None:
        return _("Blower-door test: at most {flow} at 50 Pa.").format(flow=target)
    words = _("Blower-door test: at most {rate} air changes an hour at 50 Pa, {flow}.")
    return words.format(rate=f"{entry.ach50.value:g}", flow=target)


def _burns(file: hf.HouseFile, entry: hf.StrategyEntry) -> bool:
    """As surveyed; otherwise by the fuel of the heating as found and after the work."""
    if file.seen is not None and file.seen.combustion is not None:
        return file.seen.combustion != "none"
    plants = (file.heating, entry.heating or file.heating)
    return any(plant.fuel.lower() not in _WITHOUT_FLAME for plant in plants)


# The assemblies


def sheet_assemblies(
    file: hf.HouseFile,
    works: Sequence[LayerWork],
    result: Result,
    findings: Sequence[Told],
    units: System,
) -> list[SheetAssembly]:
    """Every assembly that differs, once, with the parts that it applies to."""
    alike: dict[object, list[LayerWork]] = {}
    for work in works:
        if not (is_opening(work.component) and work.is_rebuilt):
            alike.setdefault(_signature(work), []).append(work)
    places = {component.name: index for index, component in enumerate(file.components)}
    return [
        _assembly(
            found, section_view(result, places[found[0].component.name], units), findings, units
        )
        for found in alike.values()
    ]


def _signature(work: LayerWork) -> object:
    """What two works have in common that are drawn as one; permanent keys are left out."""
    groups = (work.removed_inside, work.removed_outside, work.inside, work.kept, work.outside)
    layers = tuple(tuple(layer.model_dump_json() for layer in group) for group in groups)
    fills = tuple((fill.material, fill.thickness) for fill in work.fills)
    part = work.component
    return (part.kind, part.to == OUTDOORS, layers, fills, work.is_rebuilt, work.is_unknown)


def _assembly(
    works: Sequence[LayerWork],
    section: SectionView | None,
    findings: Sequence[Told],
    units: System,
) -> SheetAssembly:
    work = works[0]
    came_off = (*reversed(work.removed_outside), *work.removed_inside)
    names = [each.component.name for each in works]
    return SheetAssembly(
        title=_title(work.component.kind, names),
        parts=tuple((each.component.name, each.component.area.value) for each in works),
        section=section,
        layers=() if section is None else tuple(_drawn_layers(work, section)),
        removed=tuple(_layer_words(layer, units) for layer in came_off),
        fasteners=tuple(_fasteners(works, units)),
        notes=(*_notes(work), *_too_flat(works), *_found(works)),
        held=held_by(names, findings),
    )


def _title(kind: str, names: Sequence[str]) -> str:
    if len(names) == 1:
        return names[0]
    return _("{kind}: {first} and {count} more").format(
        kind=kind.capitalize(), first=names[0], count=len(names) - 1
    )


def _drawn_layers(work: LayerWork, section: SectionView) -> Iterator[DrawnLayer]:
    marks = [
        *(_mark_of_new(work, layer) for layer in work.inside),
        *(_mark_of_kept(work, layer) for layer in work.kept),
        *(_mark_of_new(work, layer) for layer in work.outside),
    ]
    for layer, mark in zip(section.layers, marks, strict=True):
        yield DrawnLayer(layer.name, layer.thickness, mark)


def _mark_of_new(work: LayerWork, layer: hf.LayerEntry) -> str:
    if isinstance(layer, hf.FramedEntry) and work.stands_on_framing:
        return _("framing kept, fill new")
    return _("new")


def _mark_of_kept(work: LayerWork, layer: hf.LayerEntry) -> str:
    if isinstance(layer, hf.FramedEntry) and any(each.bay is layer.framed for each in work.fills):
        if layer.framed.fill == "air":
            return _("kept, bays filled new")
        return _("kept, fill changed")
    return _("kept")


def _layer_words(layer: hf.LayerEntry, units: System) -> str:
    """A layer that comes off, in words."""
    if isinstance(layer, hf.SolidEntry):
        return f"{layer.material}, {thickness_text(layer.thickness.value, units)}"
    if isinstance(layer, hf.FramedEntry):
        return _("framing with {fill}").format(fill=layer.framed.fill)
    if isinstance(layer, hf.AirLayerEntry):
        return _("air layer, {thickness}").format(
            thickness=thickness_text(layer.thickness.value, units)
        )
    return layer.name or _("a layer of which only R is known")


def _fasteners(works: Sequence[LayerWork], units: System) -> Iterator[str]:
    """Every sort of screw of parts that are built alike, and about how many for all of them."""
    alike = [fastenings(work) for work in works]
    for same in zip(*alike, strict=True):
        count = to_buy(sum(each.count for each in same))
        bought = _("About {count} screws, before waste.").format(count=count)
        yield f"{_fastening_words(same[0], units)} {bought}"


def _fastening_words(fastening: Fastening, units: System) -> str:
    gauge = screw_gauge(fastening.diameter)
    words = _("{material} screws, {diameter} thick{number}, one every {spacing} both ways")
    told = words.format(
        material=fastening.material.capitalize(),
        diameter=format_quantity(fastening.diameter, "thickness", units, 2 if units == "ip" else 1),
        number="" if gauge is None else _(" (about No. {number})").format(number=gauge),
        spacing=thickness_text(fastening.spacing, units),
    )
    if fastening.into_masonry:
        return told + _("; into masonry: anchors and depth by their maker's tables.")
    if fastening.needed is None:
        return told + _("; their length cannot be told: a layer's thickness is not known.")
    through = fastening.pierced
    reckoned = _(
        "; strips {furring} + board {boards} + sheathing {sheathing} + {hold} into the framing "
        "= {needed}"
    ).format(
        furring=thickness_text(through.furring, units) if through.furring else "0",
        boards=thickness_text(through.boards, units),
        sheathing=thickness_text(through.sheathing, units) if through.sheathing else "0",
        hold=thickness_text(INTO_FRAMING, units),
        needed=thickness_text(fastening.needed, units),
    )
    if fastening.stock is None:
        return (
            told + reckoned + _(": longer than any screw in stock, an engineered detail is needed.")
        )
    return (
        told
        + reckoned
        + _(": take {length} screws.").format(length=_as_sold(fastening.stock, units))
    )


def _as_sold(length: float, units: System) -> str:
    """Screws are sold by the inch, whatever the reader measures in."""
    inches = thickness_text(length, "ip")
    return inches if units == "ip" else f"{thickness_text(length, units)} ({inches})"


def _notes(work: LayerWork) -> Iterator[str]:
    if is_beyond_tables(work):
        yield _("More than 4 in: an engineered fastening detail is needed, the tables end here.")
    if work.is_unknown:
        yield _("What was found here is not known by its layers: open it and look first.")
    if work.is_rebuilt:
        yield _("Built anew; only its U is known here, so it is not drawn.")


def _too_flat(works: Sequence[LayerWork]) -> Iterator[str]:
    """Roofs on which shingles alone do not keep water out."""
    flat = [
        each.component
        for each in works
        if each.component.kind == "roof"
        and each.component.tilt is not None
        and each.component.tilt.value < _LEAST_SLOPE
        and any(map(_is_shingle, (*each.kept, *each.outside)))
    ]
    if flat:
        names = ", ".join(each.name for each in flat)
        yield _(
            "{names}: slope below 4 in 12: shingles need a double underlayment or another "
            "roofing; see the maker and the code (IRC R905.2.2, from memory)."
        ).format(names=names)


def _is_shingle(layer: hf.LayerEntry) -> bool:
    return isinstance(layer, hf.SolidEntry) and "asphalt shingle" in layer.material.lower()


def _found(works: Sequence[LayerWork]) -> Iterator[str]:
    """What the survey says of all parts that are built so, each once."""
    words = remarkable(work.component for work in works)
    if words:
        yield _("Found: {words}.").format(words=", ".join(words))
