"""The assemblies of the crew's sheet: cut through after the work, with screws and what to know."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.core.evaluate import Result
from server.core.fasteners import INTO_FRAMING
from server.core.house import OUTDOORS
from server.crew.before import remarkable
from server.crew.fastening import Fastening, fastenings, is_beyond_tables, screw_gauge, to_buy
from server.files import house_file as hf
from server.finding_words.telling import Told
from server.formatting import thickness_text
from server.pages.house.section_view import SectionView, section_view
from server.pages.house.sheet_settle import held_by
from server.pricing.layer_work import LayerWork
from server.pricing.opening_items import is_opening
from server.units import System, format_quantity

_LEAST_SLOPE = 18.4  # degrees, 4 in 12


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
    if fastening.is_engineered:
        return told + _("; past brick or air behind the board: by an engineered detail only.")
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
