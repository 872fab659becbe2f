"""What the crew's sheet of one strategy shows. No prices: it lies about on the site."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from gettext import gettext as _
from typing import Any

from server.core.evaluate import Result
from server.core.findings.judging import judge_one
from server.crew.before import FirstThing, Reach, Seen, first_things
from server.crew.cautions import caution_words
from server.crew.handled import cautions_of
from server.crew.in_units import in_units
from server.crew.junctions import Doings, cold_attics, doings_of, junction_points
from server.crew.part_groups import in_short, lettered
from server.crew.places import placed_items
from server.crew.sequence import (
    CLOSING_STEPS,
    GROUND_COVER_STAGE,
    Line,
    StageLines,
    sequence,
)
from server.crew.stage_words import fan_words, stage_note, stage_title
from server.files import house_file as hf
from server.files import seeds
from server.files.building import Project
from server.files.site import site_of
from server.finding_words.telling import Told, told
from server.formatting import thickness_text
from server.pages.house.context import OpenHouse
from server.pages.house.sheet_assemblies import sheet_assemblies
from server.pages.house.sheet_settle import (
    ground_cover,
    held_by,
    is_ground_bare,
    matters,
)
from server.pages.house.strategy_context import core_strategy
from server.pricing.house_items import flow_at_50, volume_inside
from server.pricing.layer_work import layer_works
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from server.recipes.strategy_words import strategy_in_words
from server.units import System, format_quantity, unit_label

_COUNTED = ("opening", "lump sum", "each")
# Told by its volume, since bays are no flat area; the rest that has a thickness by its area.
_BY_VOLUME = frozenset({Step.NEW_FILL, Step.NEW_SPRAYED_FOAM, Step.NEW_FRAMING})
_WITHOUT_FLAME = frozenset({"electricity"})
# What is dangerous to disturb does not hold those who take it out, nor who gets ready for them.
_CLEARING_STAGES = frozenset({"protect", "hazards"})
_FAN_STAGES = frozenset({"test while open", "test out"})


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
    """One numbered step of the job. points: what is asked in words only.

    held: titles of the findings that stop these; a group has its own.
    """

    title: str
    note: str | None
    groups: tuple[SheetGroup, ...]
    points: tuple[str, ...]
    held: tuple[str, ...]


def field_sheet(opened: OpenHouse, entry: hf.StrategyEntry, result: Result) -> dict[str, Any]:
    """Everything on the sheet of a strategy that fits the house."""
    project, units = opened.survey.project, opened.units
    works = layer_works(project.file, entry)
    items = take_off(project, entry)
    write = functools.partial(thickness_text, system=units)
    steps = frozenset(item.step for item in items)
    doings = doings_of(project.file, entry, works, steps)
    findings = _findings(opened, entry, result)
    stages = sequence(placed_items(project.file, works, items), _asked_in_words(findings))
    groups = lettered(line.components for stage in stages for line in stage.lines)
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
        "stages": sheet_stages(project, entry, stages, groups, findings, doings, units),
        "assemblies": sheet_assemblies(project.file, works, result, findings, units),
        "junctions": junction_points(project.file, entry, doings, write) if items else (),
        "cautions": [caution_words(code) for code in cautions_of(project, works, items)],
        "readings": _readings(project.file, entry, units),
    }


def _asked_in_words(findings: Sequence[Told]) -> frozenset[str]:
    return frozenset({GROUND_COVER_STAGE} if is_ground_bare(findings) else ())


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
    doings: Doings,
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
        GROUND_COVER_STAGE: (ground_cover(),) if is_ground_bare(findings) else (),
    }
    areas = {component.name: component.area.value for component in project.file.components}
    return [
        SheetStage(
            title=stage_title(stage.code),
            note=_note(stage, project.file, attics_inside, doings.reaches_openings),
            groups=tuple(_groups(stage, areas, groups, _names(project.file), findings, units)),
            points=points.get(stage.code, ()),
            held=_held_fan(stage, tests, findings),
        )
        for stage in stages
    ]


def _note(
    stage: StageLines, file: hf.HouseFile, attics_inside: bool, has_openings: bool
) -> str | None:
    note = stage_note(stage.code, attics_inside, has_openings)
    if stage.code == "test while open" and note is not None:
        return " ".join((note, *_fan_words(file)))
    return note


def _held_fan(stage: StageLines, tests: float, findings: Sequence[Told]) -> tuple[str, ...]:
    """What keeps a fan from drawing air through the house."""
    if stage.code not in _FAN_STAGES or not tests:
        return ()
    return held_by((), findings, closes=False)


def _fan_words(file: hf.HouseFile) -> tuple[str, ...]:
    """What is asked before a fan runs; nothing where the survey says that nothing burns."""
    is_flameless = file.seen is not None and file.seen.combustion == "none"
    return () if is_flameless else (fan_words(),)


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
    for components, alike in itertools.groupby(lines, key=lambda line: line.components):
        found = tuple(alike)
        made = tuple(
            SheetLine(in_units(line.words, units, names), _amount(line, areas, units))
            for line in found
        )
        closes = any(line.step in CLOSING_STEPS for line in found)
        clears = stage.code in _CLEARING_STAGES
        held = held_by(components, findings, closes=closes, clears=clears)
        yield SheetGroup(*in_short(components, groups), made, held)


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
    things = first_things(file, reach)
    asbestos = [each for each in things if each.code == "asbestos"]
    yield from (_first_words(each, groups) for each in asbestos)
    if tests > 1.0:
        yield " ".join((_fan_before(is_cleared=not asbestos), *_fan_words(file)))
    yield from (_first_words(each, groups) for each in things if each not in asbestos)


def _fan_before(*, is_cleared: bool) -> str:
    if is_cleared:
        return _("Blower-door test before anything is touched; write the figure down.")
    return _(
        "Blower-door test before anything else is touched, but only once asbestos is cleared; "
        "write the figure down."
    )


def _first_words(thing: FirstThing, groups: Mapping[str, tuple[str, ...]]) -> str:
    if not thing.found:
        return thing.words
    found = "; ".join(_seen_words(each, groups) for each in thing.found)
    return _("{thing} Found: {found}.").format(thing=thing.words, found=found)


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
        yield " ".join((_target(file, entry, units), *_fan_words(file)))
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
