"""Filling what stands empty: bays, attic floors, floors over a buffer."""

from __future__ import annotations

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.formatting import inches_text
from server.recipes import stock
from server.recipes.layers import bay_for_fill, is_framed, is_insulated, is_masonry
from server.recipes.survey import Json, Survey, assumed

DENSE_PACK = "dense-pack cellulose"
BATT = "mineral wool batt"
LOOSE_FILL = "cellulose loose fill"

SHALLOWEST_IN = 1.0  # furring of less takes no fill
WORST_LOOSE_FILL = 0.06  # W/(m K): an old fill that conducts more is not worth topping up
JOISTS_IN = 9.25
STUDS_IN = 3.5
RAFTERS_IN = 5.5
JOIST_SHARE = 0.1  # of the area that is framing, for joists and rafters
STUD_SHARE = 0.25

_FILLED_KINDS = frozenset({"wall", "partition", "roof", "ceiling"})


def fill(survey: Survey, component: hf.ComponentEntry) -> Json | None:
    """The change that fills what is empty in a component, or None."""
    layers = survey.layers(component)
    bay = bay_for_fill(layers)
    if component.kind == "floor":
        if bay is None:
            return _batts_below(survey, component, layers)
        return _floor_bay(survey, component, bay)
    if component.kind not in _FILLED_KINDS or bay is None:
        return None
    if component.kind == "ceiling" and bay.framed.open:
        return _attic_floor(survey, bay)
    return _bay(component, bay)


def _is_empty(bay: hf.FramedEntry) -> bool:
    return bay.framed.fill == "air" and _depth_in(bay) >= SHALLOWEST_IN


def _depth_in(bay: hf.FramedEntry) -> float:
    return bay.framed.depth.value / stock.INCH


def _bay(component: hf.ComponentEntry, bay: hf.FramedEntry) -> Json | None:
    """Batts where one can lay hands on the bay, else dense-pack: never batts into closed bays."""
    if not _is_empty(bay):
        return None
    if component.access == "open":
        return _filled_with(BATT, stock.BATT_R * _depth_in(bay))
    if bay.framed.open:
        return None
    return _filled_with(DENSE_PACK, stock.DENSE_PACK_R * _depth_in(bay))


def _filled_with(material: str, resistance: float) -> Json:
    return {"fill": material, "fill_label_resistance": stock.label(resistance)}


def _attic_floor(survey: Survey, bay: hf.FramedEntry) -> Json | None:
    """Loose fill to the whole depth wanted; it takes the place of what lies there."""
    wanted = float(survey.wanted.ceiling)
    framed = bay.framed
    material = LOOSE_FILL
    if framed.fill != "air":
        conductivity = survey.conductivity(framed.fill)
        found = (framed.fill_thickness or framed.depth).value / conductivity
        if found * stock.R_PER_SI >= wanted:
            return None
        if "cellulose" in framed.fill.lower() and conductivity <= WORST_LOOSE_FILL:
            material = framed.fill
    depth_in = stock.blown_depth_in(wanted, min(survey.conductivity(material), WORST_LOOSE_FILL))
    return {
        "fill": material,
        "fill_thickness": inches_text(depth_in),
        "fill_label_resistance": stock.label(wanted),
    }


def _floor_bay(survey: Survey, component: hf.ComponentEntry, bay: hf.FramedEntry) -> Json | None:
    is_open = component.access == "open" or (bay.framed.open and component.access is None)
    if not is_open:
        return _bay(component, bay)
    if not _is_empty(bay):
        return None
    depth_in = _depth_in(bay)
    batt_in = stock.batt_in(survey.wanted.floor)
    if batt_in >= depth_in - 1e-6:
        return _filled_with(BATT, stock.BATT_R * depth_in)
    change = _filled_with(BATT, stock.BATT_R * batt_in)
    return change | {"fill_thickness": inches_text(batt_in)}


def _batts_below(
    survey: Survey, component: hf.ComponentEntry, layers: list[hf.LayerEntry]
) -> Json | None:
    """Batts held against the subfloor, in joists that the survey did not describe."""
    if not layers or is_framed(layers) or is_insulated(layers) or is_masonry(layers[-1]):
        return None
    if component.to == OUTDOORS or component.access == "closed" or survey.framing is None:
        return None
    batt_in = stock.batt_in(survey.wanted.floor)
    framed = {
        "framing": survey.framing,
        "fraction": assumed(JOIST_SHARE),
        "fill": BATT,
        "depth": assumed(inches_text(JOISTS_IN)),
        "fill_thickness": inches_text(batt_in),
        "open": True,
    }
    name = "joist bays, batts against the subfloor"
    return {"outside": [_framed_layer(framed, name, batt_in)]}


def batts_behind(survey: Survey, component: hf.ComponentEntry) -> Json | None:
    """Batts on the inside of an attic's bare roof or gable, in framing not described."""
    layers = survey.layers(component)
    if not layers or is_framed(layers) or is_insulated(layers):
        return None
    if component.access == "closed" or survey.framing is None:
        return None
    is_roof = component.kind == "roof"
    depth_in = RAFTERS_IN if is_roof else STUDS_IN
    framed = {
        "framing": survey.framing,
        "fraction": assumed(JOIST_SHARE if is_roof else STUD_SHARE),
        "fill": BATT,
        "depth": assumed(inches_text(depth_in)),
    }
    name = "rafter bays" if is_roof else "stud bays"
    return {"inside": [_framed_layer(framed, name, depth_in)]}


def _framed_layer(framed: Json, name: str, batt_in: float) -> Json:
    label = stock.label(stock.BATT_R * batt_in)
    return {"framed": framed, "name": name, "label_resistance": label}


def has_filled_bays(layers: list[hf.LayerEntry], change: Json | None) -> bool:
    """Whether insulation stands between the framing after a change."""
    if change is not None and ("fill" in change or "inside" in change):
        return True
    framed = [layer.framed for layer in layers if isinstance(layer, hf.FramedEntry)]
    return any(each.fill != "air" for each in framed)
