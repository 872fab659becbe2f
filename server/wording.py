"""The sentences for what the core refuses. Facts come from the core, words from here."""

from __future__ import annotations

from gettext import gettext

from server.core.errors import CoreError, ImpossibleValue
from server.units import format_quantity

# Limits of these are shown with their unit; every other limit is a plain number or zero.
_KIND_OF_LIMIT = {
    "mean_temperature": "temperature",
    "heating": "temperature",
    "cooling": "temperature",
    "temperature_deviation": "temperature_difference",
    "diurnal_deviation": "temperature_difference",
    "elevation": "length",
    "wind_speed": "speed",
    "horizontal_irradiation": "irradiation",
    "humidity_ratio": "humidity_ratio",
    "conductivity": "conductivity",
    "psi": "linear_transmittance",
    "area": "area",
    "floor_area": "area",
    "volume": "volume",
    "length": "length",
    "thickness": "thickness",
    "thinnest": "thickness",
    "fill_thickness": "thickness",
    "depth": "length",
    "recess": "thickness",
    "per_area": "count_per_area",
    "cross_section": "cross_section",
    "depth_below_grade": "length",
    "exposed_perimeter": "length",
    "u_value": "u_value",
    "storm_u_value": "u_value",
    "resistance": "resistance",
    "label_resistance": "resistance",
    "fill_label_resistance": "resistance",
    "flow": "flow",
    "flow_at_50_pa": "flow",
    "cfm50": "flow",
}

SENTENCES = {
    "no_layers": "an assembly needs at least one layer",
    "two_tapers": "only one layer of an assembly may taper",
    "metal_framing": (
        "{material} is metal: the layer methods do not hold for metal framing; "
        "give the U of the whole assembly from a published table instead"
    ),
    "fill_deeper_than_bay": (
        "a closed bay {depth} deep cannot hold {fill_thickness} of fill; "
        "use at most the depth, or mark the framing as open above"
    ),
    "first_framing_aligned": (
        "aligned means in line with the framed layer next inside, and there is none"
    ),
    "unknown_name": "no {what} is called “{name}”; known are {known}",
    "name_taken": "“{name}” is the name of another one in this list; names must differ",
    "nothing_inside": "at least one space must be inside the thermal boundary",
    "component_within_one_space": (
        "a {kind} cannot lie between “{space}” and itself; only a partition or an inner floor can"
    ),
    "wrong_side": "a {kind} cannot lie here against “{space}”: {rule}",
    "ground_facts_missing": "a {kind} with layers needs {needs}",
    "basement_without_floor": (
        "a basement wall with layers takes part of its soil from the basement floor of the same "
        "space, and “{space}” has none with layers"
    ),
    "loose_space": "“{space}” touches neither indoors, outdoors nor the ground, so its temperature "
    "cannot be known; give it a component or air changes",
    "negative_conductance": (
        "the junctions between “{space}” and “{other}” take off more heat than the parts there "
        "lose; check the signs of psi"
    ),
    "cooling_below_heating": "the cooling set point must not be below the heating set point",
    "recovery_without_balance": "heat recovery needs a balanced system (supply and exhaust)",
    "nothing_to_change": "found nothing to act on: there is no {what} called “{name}”{where}",
    "several_framed_layers": (
        "“{component}” has several framed layers, and it is not clear which one to fill; "
        "name a whole assembly instead"
    ),
}

WRONG_SIDE_RULES = {
    "from": "from is the warm side, so it is a space",
    "ground": "only a slab, basement wall or basement floor lies against the ground",
    "other": "a slab, basement wall or basement floor lies against the ground",
}


def sentence(error: CoreError) -> str:
    """A refusal of the core in words."""
    if isinstance(error, ImpossibleValue):
        return _limits(error)
    facts = {name: str(fact) for name, fact in error.facts.items()}
    if error.code == "fill_deeper_than_bay":
        for name in ("depth", "fill_thickness"):
            facts[name] = format_quantity(float(facts[name]), "thickness", "ip")
    if error.code == "wrong_side":
        starts = (error.field or "").endswith("from")
        rule = "from" if starts else "ground" if facts["space"] == "ground" else "other"
        facts["rule"] = gettext(WRONG_SIDE_RULES[rule])
    if error.code == "nothing_to_change":
        component = facts.get("component")
        facts["where"] = (
            gettext(" in “{component}”").format(component=component) if component else ""
        )
    return gettext(SENTENCES[error.code]).format_map(facts)


def _limits(error: ImpossibleValue) -> str:
    low, high = error.facts["low"], error.facts["high"]
    assert isinstance(low, float)
    # below a plain zero the upper limit, there against absurd figures, would only distract
    if high is None or (error.facts["too_low"] and low == 0.0 and high != 1.0):
        if error.facts["above"]:
            return gettext("must be above {low}").format(low=_limit(error.field, low))
        return gettext("must be {low} or more").format(low=_limit(error.field, low))
    assert isinstance(high, float)
    words = (
        "must be above {low} and at most {high}"
        if error.facts["above"]
        else ("must lie between {low} and {high}")
    )
    return gettext(words).format(low=_limit(error.field, low), high=_limit(error.field, high))


def _limit(field: str | None, limit: float) -> str:
    kind = _KIND_OF_LIMIT.get((field or "").rsplit(".", 1)[-1].split("[", 1)[0])
    if kind is None or limit == 0.0:
        return f"{limit:.10g}"
    return f"{format_quantity(limit, kind, 'si')} ({format_quantity(limit, kind, 'ip')})"
