"""What a strategy does to the house as a whole, as sentences for a contractor."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from gettext import gettext as _
from gettext import ngettext

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.files.material_groups import INSULATION, MASONRY
from server.recipes.layers import is_framed, is_masonry, layer_group
from server.units import System, format_quantity

_WRAPPING = frozenset({"exterior continuous", "hybrid"})
SAME = 1e-9  # W/(m K): two psi no further apart are one


def strategy_in_words(strategy: hf.StrategyEntry, file: hf.HouseFile) -> tuple[str, ...]:
    """One sentence for each thing that is not done to a single component's layers."""
    return (
        *_spaces(strategy, file),
        *_not_wrapped(strategy, file),
        *_filled_already(strategy, file),
        *_openings(strategy.openings or {}),
        *_slab_edges(strategy.edge_insulation or {}),
        *_junctions(strategy.psi or {}, file.junctions),
        *_airtightness(strategy),
        *_ventilation(strategy.ventilation),
        *_plant(_("New heating"), strategy.heating),
        *_plant(_("New cooling"), strategy.cooling),
    )


def _spaces(strategy: hf.StrategyEntry, file: hf.HouseFile) -> Iterator[str]:
    for name in strategy.inside or []:
        space = file.spaces.get(name)
        if space is not None and space.air_changes is not None and space.air_changes.value >= 1.0:
            yield _("The {space} comes inside: its vents are closed").format(space=name)
        else:
            yield _("The {space} comes inside").format(space=name)
    for name, vents in (strategy.spaces or {}).items():
        words = _("The {space} stays outside, with {rate} air changes an hour")
        yield words.format(space=name, rate=_plain(vents.air_changes.value))


def _not_wrapped(strategy: hf.StrategyEntry, file: hf.HouseFile) -> Iterator[str]:
    """Why walls of a strategy that wraps the house have no board: their skin stays."""
    if strategy.recipe not in _WRAPPING:
        return
    staying: dict[str, list[str]] = {}
    for wall, layers in _walls_of_rooms(file):
        skin = layers[-1]
        if is_masonry(skin) and isinstance(skin, hf.SolidEntry) and not _is_wrapped(strategy, wall):
            is_veneer = is_framed(layers) and layer_group(skin) in MASONRY
            material = skin.material
            if is_veneer and "veneer" not in material:
                material = _("{material} veneer").format(material=material)
            staying.setdefault(material, []).append(wall.name)
    for material, names in staying.items():
        words = _("{material} stays: its walls are not wrapped ({names})")
        yield words.format(material=_capital(material), names=", ".join(names))


def _filled_already(strategy: hf.StrategyEntry, file: hf.HouseFile) -> Iterator[str]:
    """Why walls of a strategy that fills bays get no fill."""
    if strategy.recipe != "cavity-only":
        return
    names = [
        wall.name
        for wall, layers in _walls_of_rooms(file)
        if strategy.change_of(wall) is None and _is_filled(layers)
    ]
    if names:
        yield _("Filled already, so left as found: {names}").format(names=", ".join(names))


def _walls_of_rooms(
    file: hf.HouseFile,
) -> Iterator[tuple[hf.ComponentEntry, Sequence[hf.LayerEntry]]]:
    """Walls between what is inside as found and outdoors, with the layers of those known."""
    for component in file.components:
        space = file.spaces.get(component.from_)
        if component.kind != "wall" or component.to != OUTDOORS or space is None:
            continue
        assembly = file.assemblies[component.assembly] if component.assembly else None
        layers = [] if assembly is None else assembly.layers or []
        if space.inside and layers:
            yield component, layers


def _is_wrapped(strategy: hf.StrategyEntry, wall: hf.ComponentEntry) -> bool:
    """Whether board goes outside, or the wall is built anew."""
    change = strategy.change_of(wall)
    if isinstance(change, hf.LayerChangeEntry):
        return any(layer_group(layer) in INSULATION for layer in change.outside or [])
    return change is not None


def _is_filled(layers: Sequence[hf.LayerEntry]) -> bool:
    framed = [layer.framed for layer in layers if isinstance(layer, hf.FramedEntry)]
    return bool(framed) and all(each.fill != "air" for each in framed)


def _openings(openings: Mapping[str, hf.OpeningEntry]) -> Iterator[str]:
    for name, opening in openings.items():
        figures = []
        if opening.u_value is not None:
            figures.append(_("U {value}").format(value=_u_value(opening.u_value)))
        if opening.shgc is not None:
            figures.append(_("SHGC {value}").format(value=opening.shgc.typed))
        if opening.u_value is not None or opening.storm_u_value is None:
            words = _("{opening}: new, {figures}")
            yield words.format(opening=_capital(name), figures=", ".join(figures))
            figures = []
        if opening.storm_u_value is not None:
            figures.insert(0, _("U {value}").format(value=opening.storm_u_value.typed))
            words = _("{opening}: a storm window over it, {figures}")
            yield words.format(opening=_capital(name), figures=", ".join(figures))


def _slab_edges(edges: Mapping[str, hf.EdgeInsulationEntry]) -> Iterator[str]:
    for name, edge in edges.items():
        insulation = str(edge.resistance.typed)
        if edge.thickness is not None:
            insulation = f"{edge.thickness.typed}, {insulation}"
        if edge.depth is not None:
            words = _("{slab}: edge insulated {depth} deep, {insulation}")
            depth = edge.depth.typed
        else:
            assert edge.width is not None  # the file's own check
            words = _("{slab}: edge insulated {depth} wide, laid flat, {insulation}")
            depth = edge.width.typed
        yield words.format(slab=_capital(name), depth=depth, insulation=insulation)


def _junctions(psi: Mapping[str, hf.Entry], junctions: Sequence[hf.JunctionEntry]) -> Iterator[str]:
    """Better ones and worse ones apart: a junction may lose more after the work."""
    found = {junction.name: junction.psi.value for junction in junctions}
    gains = {name: found[name] - entry.value for name, entry in psi.items() if name in found}
    better = [name for name, gain in gains.items() if gain > SAME]
    worse = [name for name, gain in gains.items() if gain < -SAME]
    if better:
        words = ngettext(
            "{count} junction made better: {names}",
            "{count} junctions made better: {names}",
            len(better),
        )
        yield words.format(count=len(better), names=", ".join(better))
    if worse:
        words = ngettext(
            "{count} junction loses more than before: {names}",
            "{count} junctions lose more than before: {names}",
            len(worse),
        )
        yield words.format(count=len(worse), names=", ".join(worse))


def _airtightness(strategy: hf.StrategyEntry) -> Iterator[str]:
    if strategy.ach50 is not None:
        words = _("Air sealed to {rate} air changes an hour at 50 Pa")
        yield words.format(rate=_plain(strategy.ach50.value))
    if strategy.cfm50 is not None:
        words = _("Air sealed to {flow} at 50 Pa")
        yield words.format(flow=_flow(strategy.cfm50))
    if strategy.air_changes is not None:
        words = _("Air sealed to {rate} air changes an hour in use")
        yield words.format(rate=_plain(strategy.air_changes.value))


def _ventilation(ventilation: hf.VentilationEntry | None) -> Iterator[str]:
    if ventilation is None:
        return
    flow = _flow(ventilation.flow)
    recovery = ventilation.heat_recovery
    if not ventilation.balanced:
        yield _("Ventilation by a one-way fan, {flow}").format(flow=flow)
    elif recovery is not None and recovery.value > 0.0:
        words = _("Balanced ventilation, {flow}, {share} of the heat recovered")
        share = format_quantity(recovery.value, "share", "ip")
        yield words.format(flow=flow, share=share)
    else:
        yield _("Balanced ventilation, {flow}, without heat recovery").format(flow=flow)


def _plant(title: str, plant: hf.PlantEntry | None) -> Iterator[str]:
    if plant is None:
        return
    words = _("{title}: {fuel}, seasonal efficiency {efficiency}").format(
        title=title, fuel=plant.fuel, efficiency=plant.efficiency.typed
    )
    if plant.ducts_in is not None:
        words += _(", ducts or pipes in the {space}").format(space=plant.ducts_in)
    yield words


def _u_value(entry: hf.Entry) -> str:
    """U in the system it was typed in."""
    system: System = "si" if "W" in str(entry.typed) else "ip"
    return format_quantity(entry.value, "u_value", system)


def _flow(entry: hf.Entry) -> str:
    """A flow in the system it was typed in; a plain number is in cubic feet a minute."""
    typed = str(entry.typed)
    system: System = "si" if typed.rstrip().endswith(("/s", "/h", "/hour")) else "ip"
    return format_quantity(entry.value, "flow", system)


def _plain(value: float) -> str:
    return f"{value:g}"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
