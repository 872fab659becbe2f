"""Words for the codes of formulas and of quantities."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from gettext import gettext as _
from typing import Final

from server.core.explain.base import Label
from server.formatting import MONTHS
from server.units import N_

FORMULA_WORDS: Final[Mapping[str, str]] = {
    "year_of_months": N_("The twelve months added up"),
    "fuel": N_("What the rooms need, over what the plant and its ducts or pipes let through"),
    "cooling_fuel": N_("Heat and moisture to be removed, over efficiency and distribution"),
    "annual_cost": N_("Every fuel times its price, added up"),
    "annual_carbon": N_("Every fuel times its carbon factor, added up"),
    "change": N_("This column less the one it is compared with"),
    "share_change": N_("How much this column is above or below the one it is compared with"),
    "sum_of_members": N_("What the members of this part answer for, added up"),
    "mean_of_year": N_("Mean of the months, each with its days"),
    "air_changes_at_50_pa": N_("Blower-door flow of an hour over the volume inside"),
    "folded_conductance": N_(
        "Conductances of what leads there directly, and of what leads to a space outside the "
        "insulation times that space's share"
    ),
    "buffer_weight": N_("From the steady balance of the space: what flows in flows out"),
    "mean_resistance": N_("Area over the sum of U·A; resistances themselves are never averaged"),
    "basic_model": N_("Air driven by warmth and wind through the effective leakage area"),
    "air_conductance": N_("Outdoor air, less what heat recovery brings back, times its heat"),
    "air_loss": N_("Mean heat that outdoor air takes over the hours of the month"),
    "air_slope": N_("What outdoor air takes more for each kelvin that outdoors is colder"),
    "air_loss_at_mean": N_("Heat that outdoor air takes at the month's mean temperature"),
    "air_slope_at_mean": N_("The conductance of outdoor air"),
    "slope": N_("All that outdoors takes more for each kelvin it is colder"),
    "base": N_("The outdoor temperature at which the straight line of the month's balance is zero"),
    "spread_of_days": N_("Spread of the daily balance: of the days' temperature and of their sun"),
    "swing_within_day": N_("Swing of the balance within a day, of temperature and sun together"),
    "unstored_share": N_("What storage between the two set points leaves of that swing's variance"),
    "led_out": N_("Of what radiates inside, the share that surfaces which lead out let go at once"),
    "leads_out": N_("What lies before its inside film, of the part it leads out"),
    "gains": N_(
        "People and appliances, of whose radiant half a share leaves at once, and sun, less what "
        "is radiated to the sky"
    ),
    "balance_point": N_(
        "The outdoor temperature at which gains and losses meet; the ground is set apart"
    ),
    "widest": N_("Conductance with windows open at two air changes an hour"),
    "open_balance_point": N_("The balance point with windows open, never below the closed one"),
    "degree_days": N_("Degree-days to that balance point, for normally distributed daily means"),
    "month_heating": N_("Conductance times 24 hours times degree-days"),
    "month_cooling": N_("Degree-days above the balance point, with windows open and closed"),
    "hours_with_cooling": N_("Hours in which cooling runs"),
    "open_window_share": N_("Windows are opened while the month is dry enough"),
    "fixed_ratio": N_("A fixed share of moisture, where the humidity is not known"),
    "latent_load": N_("Moisture of outdoor air and of people while cooling runs"),
    "layer_resistance": N_("Thickness over conductivity"),
    "path_resistance": N_("What lies along the way, added up"),
    "lower_limit": N_("Every plane at one temperature: the planes added up"),
    "upper_limit": N_("Heat flows straight through: the paths side by side"),
    "plane": N_("A framed layer by itself: its sides next to each other"),
    "tapered": N_("From the thin edge to the thick one, evenly, over a rectangle"),
    "between_still_and_open": N_("Between still air and a well-ventilated layer, by its opening"),
    "mean_of_limits": N_(
        "From the mean of the upper limit (parallel paths) and the lower (equal planes), and what "
        "fasteners let through"
    ),
    "characteristic_dimension": N_("Area over half the exposed perimeter"),
    "equivalent_thickness": N_("Soil as thick as wall and floor resist"),
    "slab_u": N_("Floor and soil together"),
    "edged_slab_u": N_("Floor and soil together, less what the edge insulation saves"),
    "basement_wall_u": N_("Wall and soil together"),
    "periodic": N_("How much of outdoors' yearly swing the part passes on"),
    "ground_wave": N_(
        "The year's mean outdoors, and a share of its yearly wave, one month behind: the H_pe of "
        "all parts in the ground, as far as they reach indoors, over their conductance"
    ),
    "inverse_of_u": N_("One over U"),
    "inverse_of_r": N_("One over R"),
    "area_conductance": N_("U times area; nothing where both sides are inside"),
    "heat_of_a_part": N_("Conductance times the heating need for each unit of it"),
    "design_sum": N_("What every part takes on that day, added up"),
    "design_plant": N_("Heat lost over what ducts or pipes deliver"),
    "design_cooling_plant": N_("Heat over what ducts deliver, and moisture"),
    "design_latent": N_("Moisture of outdoor air in the most humid month, and of people"),
    "design_loss": N_("Conductance times the difference to what the part leads to"),
    "load_factor": N_("U·A times what stands for outdoors: temperature, sun, the night before"),
    "glass_load": N_("Heat through the glass and sun let in"),
    "hours_of_drift": N_("How long one capacity takes to drift from the set point to the limit"),
    "gross_loss": N_("What every way out loses in the month"),
    "all_conductance": N_("Conductance of all ways out"),
    "heat_loss": N_("All that a degree between indoors and outdoors or ground carries away"),
    "heat_per_conductance": N_("The month's need for each unit of conductance of this way"),
    "aperture": N_("Area that, fully lit and unshaded, passes on as much sun as the part does"),
    "cost_lines": N_("The lines of the price book for this reason, added up"),
    "installed_cost": N_("What is due anyway, insulation, and what it brings with it, added up"),
    "yearly_saving": N_("Fuel cost as found less fuel cost after the work"),
    "payback": N_("Installed cost over the saving of a year"),
    "payback_of_extra": N_("Installed cost less what is due anyway, over the saving of a year"),
    "embodied_carbon": N_("Carbon of making every material that is added"),
    "carbon_payback": N_("Carbon of the materials over what is let out less in a year"),
    "inside_surface": N_("Room temperature less what falls off in the film of air at the surface"),
    "sky": N_("What the outer surface radiates to the sky, as it is felt indoors"),
}

QUANTITY_WORDS: Final[Mapping[str, str]] = {
    **{f"month_{number}": name for number, name in enumerate(MONTHS, start=1)},
    "after": N_("this column"),
    "after_work": N_("after the work"),
    "as_found": N_("as found"),
    "due_anyway": N_("due anyway"),
    "embodied_carbon": N_("carbon of making the materials"),
    "installed_cost": N_("installed cost"),
    "insulation": N_("insulation"),
    "only_because_of_insulation": N_("only because of insulation"),
    "yearly_saving": N_("saving of fuel a year"),
    "air_conductance": N_("conductance of outdoor air"),
    "air_density": N_("density of air at the site"),
    "air_heat_capacity": N_("heat capacity of air at the site"),
    "all_conductance": N_("conductance of all ways out"),
    "annual_carbon_factor": N_("its carbon factor"),
    "annual_cost_factor": N_("its price"),
    "aperture": N_("aperture"),
    "area": N_("area"),
    "bare_resistance": N_("R of the layers, without films"),
    "characteristic_dimension": N_("characteristic dimension"),
    "depth_below_grade": N_("depth below grade"),
    "edge_extent": N_("width of the edge insulation, or twice its depth"),
    "edge_resistance": N_("R of the edge insulation"),
    "edge_thickness": N_("thickness of the edge insulation"),
    "exposed_perimeter": N_("exposed perimeter"),
    "floor_thickness": N_("equivalent thickness of the floor"),
    "mean_of_outdoors": N_("mean outdoor temperature of the year"),
    "month_number": N_("number of the month"),
    "penetration_depth": N_("depth the yearly wave reaches"),
    "periodic": N_("periodic part of the loss"),
    "soil_conductivity": N_("conductivity of the soil"),
    "wall_equivalent": N_("equivalent thickness of the wall"),
    "wall_thickness": N_("thickness of the walls above"),
    "wave_cosine": N_("cosine part of outdoors' yearly wave"),
    "wave_share": N_("share of that wave that the ground takes part in"),
    "wave_sine": N_("sine part of it"),
    "balance_point": N_("balance point"),
    "bare_surface": N_("1 if the surface itself meets sun and sky, 0 behind a ventilated gap"),
    "bedrooms": N_("bedrooms"),
    "before": N_("the column compared with"),
    "air_loss": N_("heat taken by outdoor air"),
    "air_slope": N_("outdoor air for each kelvin colder"),
    "band": N_("between the two set points"),
    "base": N_("base of the degree-days"),
    "conductance": N_("conductance"),
    "kept": N_("share that comes back from the space behind"),
    "leads_out": N_("leads out of what falls on it"),
    "led_out": N_("share of radiant gains that leaves at once"),
    "slope": N_("loss for each kelvin colder"),
    "spread_of_days": N_("spread of the days' balance"),
    "stays": N_("share that stays inside"),
    "swing_within_day": N_("swing within the day"),
    "unstored_share": N_("share of that swing that storage leaves"),
    "cooling_need": N_("cooling need, sensible"),
    "cooling_set_point": N_("cooling set point"),
    "daily_deviation": N_("spread of the days' mean temperature"),
    "daily_irradiation": N_("sun of a mean day on the level"),
    "days": N_("days"),
    "design_temperature": N_("outdoors on the design night"),
    "inside_film": N_("inside film"),
    "distribution": N_("share that ducts or pipes deliver"),
    "comes_to_rest": N_("where it would come to rest: outdoors, ground, people and sun"),
    "conductance_without_fans": N_("conductance with fans off"),
    "daily_range": N_("daily range of the design day"),
    "design_heat": N_("heat lost on the design night"),
    "design_latent": N_("moisture to remove"),
    "design_sensible": N_("heat to remove"),
    "difference": N_("difference to what it leads to"),
    "factor_base": N_("factor of sun"),
    "factor_range": N_("factor of the daily range"),
    "factor_time": N_("factor of the temperature"),
    "fenestration_factor": N_("fenestration factor"),
    "indoor_humidity": N_("humidity indoors"),
    "limit": N_("limit"),
    "load": N_("load on the design day"),
    "over_set_point": N_("outdoors over the set point"),
    "peak_sun": N_("peak of the clear sky's sun, shaded as in July"),
    "people_inside": N_("people and appliances"),
    "wettest_month": N_("humidity of the most humid month"),
    "diurnal_deviation": N_("spread of the hours within a day"),
    "ducts_inside": N_("ducts run inside and lose nothing"),
    "faces_away": N_("1, or 0 where both sides are inside"),
    "fan_flow": N_("flow of the fans"),
    "floor_area": N_("floor area"),
    "fastener_loss": N_("what fasteners add to U"),
    "flow_at_50_pa": N_("blower-door flow at 50 Pa"),
    "gains": N_("gains"),
    "gross_loss": N_("loss of all ways out"),
    "ground": N_("ground"),
    "ground_temperature": N_("temperature of the ground"),
    "ground_weight": N_("share of the ground in its temperature"),
    "heat_capacity": N_("heat capacity of the house"),
    "heat_per_conductance": N_("heating need for each W/K"),
    "heat_recovery": N_("share of heat recovered"),
    "heating_degree_days": N_("degree-days to the balance point"),
    "heating_need": N_("heating need"),
    "heating_set_point": N_("heating set point"),
    "heating_share": N_("its share of the heating need"),
    "hours_with_cooling": N_("hours with cooling"),
    "humidity_ratio": N_("humidity of outdoor air"),
    "infiltration": N_("air through leaks"),
    "inside_volume": N_("volume inside the insulation"),
    "air_layer": N_("air layer"),
    "conductivity": N_("conductivity"),
    "known_resistance": N_("layer of known resistance"),
    "layer": N_("resistance"),
    "outer_film": N_("film on the other side"),
    "share_of_path": N_("share of the area"),
    "tapering": N_("what the thick edge resists more"),
    "thickness": N_("thickness"),
    "ventilated_share": N_("how far the air layer is open, 0 to 1"),
    "latent_need": N_("cooling need, moisture"),
    "lower_limit": N_("lower limit of R"),
    "open_window_balance_point": N_("balance point with open windows"),
    "open_window_conductance": N_("air of open windows"),
    "open_window_share": N_("share of mild days with open windows"),
    "outdoor_air": N_("outdoor air"),
    "outdoor_flow": N_("outdoor air in all"),
    "outdoor_temperature": N_("outdoor temperature"),
    "outdoors": N_("outdoors"),
    "outdoors_weight": N_("share of outdoors in its temperature"),
    "outside_film": N_("outside film"),
    "people_and_appliances": N_("people and appliances"),
    "plane": N_("number of its plane"),
    "resistance": N_("real R"),
    "seasonal_efficiency": N_("seasonal efficiency"),
    "sensible_heat_ratio": N_("sensible heat ratio"),
    "set_point": N_("set point"),
    "shading": N_("share of the sun that arrives"),
    "shgc": N_("solar heat gain coefficient"),
    "sky": N_("radiated to the sky"),
    "sky_view": N_("share of the sky in its view"),
    "solar_absorptance": N_("solar absorptance"),
    "source_weight": N_("share of a source on it that reaches indoors"),
    "stack_coefficient": N_("stack coefficient"),
    "sun": N_("sun that reaches indoors"),
    "sun_variation": N_("spread of the days' sun over its mean"),
    "sun_with_temperature": N_("sun of the hours together with their warmth"),
    "sun_within_day": N_("mean square of the sun within a day"),
    "tie_to_ground": N_("conductance to the ground"),
    "tie_to_indoors": N_("conductance to indoors"),
    "tie_to_outdoors": N_("conductance to outdoors, its air included"),
    "to_ground": N_("from indoors to the ground"),
    "to_outdoors": N_("from indoors to outdoors, without air"),
    "u_value": N_("U"),
    "upper_limit": N_("upper limit of R"),
    "widest_conductance": N_("conductance with open windows"),
    "wind_coefficient": N_("wind coefficient"),
    "wind_speed": N_("wind"),
}


_NUMBERED: Final = {"path": N_("path {number}"), "side": N_("side {number}")}
_TAKEN_AS: Final = {
    "thin/": N_("{quantity}, at the thin edge"),
    "still/": N_("{quantity}, the air taken as still"),
    "open/": N_("{quantity}, the air taken as outdoors"),
}


@functools.cache  # gettext searches the disk at every call, and a page has thousands
def formula_words(code: str) -> str:
    """What a formula says, in words."""
    return _(FORMULA_WORDS[code])


def quantity_words(name: str) -> str:
    """What a quantity is called; a label is what somebody named it.

    path_3 is the third of its kind; still/ and open/ say how an air layer is taken.
    """
    return str(name) if isinstance(name, Label) else _of_code(name)


@functools.cache
def _of_code(name: str) -> str:
    for prefix, words in _TAKEN_AS.items():
        if name.startswith(prefix):
            return _(words).format(quantity=_of_code(name.removeprefix(prefix)))
    kind, _underline, number = name.rpartition("_")
    if kind in _NUMBERED:
        return _(_NUMBERED[kind]).format(number=number)
    return _(QUANTITY_WORDS[name])
