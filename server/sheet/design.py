"""The design days and a power cut, as rows."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from gettext import gettext as _

from server.core.arrays import Real
from server.core.design_load import cooling_load, heating_load
from server.core.evaluate import Result
from server.core.explain import design, outage, year
from server.core.explain.base import Explanation
from server.core.power_cut import COOL_LIMITS, WARM_LIMITS, Drift, PowerCut, power_cut
from server.sheet.rows import Figure, Row, Section, number

LONGEST_HOURS = 24 * 7  # longer than anybody waits for the power
PowerRead = Callable[[Result], Real | None]


def design_section(results: Sequence[Result]) -> Section:
    """What heating and cooling must bring on the coldest and the hottest day."""
    found = results[0]

    def heating(result: Result) -> Real | None:
        load = heating_load(result)
        return None if load is None else load.on_equipment

    def cooling(result: Result) -> Real | None:
        load = cooling_load(result)
        return None if load is None else load.on_equipment

    return Section(
        _("On the design days"),
        _(
            "Heat lost on the coldest night without gains, and heat and moisture to remove on the "
            "hottest day; moisture is that of the most humid month's mean. What ducts lose outside "
            "is in what the equipment must bring, as over a season; a design day may be worse. "
            "No equipment selection: that is for licensed practice."
        ),
        (
            _power(_("Heat lost on the design night"), results, _lost, design.heating),
            _power(_("Heating the equipment must bring"), results, heating, design.heating_plant),
            _taken_off(_("… against as found"), results, found, heating),
            _power(_("Heat to remove on the design day"), results, _sensible, design.cooling),
            _power(_("Moisture to remove on it"), results, _latent, design.latent),
            _power(_("Cooling the equipment must bring"), results, cooling, design.cooling_plant),
            _taken_off(_("… against as found"), results, found, cooling),
        ),
    )


def _lost(result: Result) -> Real | None:
    load = heating_load(result)
    return None if load is None else load.total


def _sensible(result: Result) -> Real | None:
    load = cooling_load(result)
    return None if load is None else load.sensible


def _latent(result: Result) -> Real | None:
    load = cooling_load(result)
    return None if load is None else load.latent


def _power(
    name: str,
    results: Sequence[Result],
    read: PowerRead,
    explain: Callable[[Result], Explanation | None],
) -> Row:
    figures = tuple(Figure(number(read(result))) for result in results)
    return Row(name, "power", figures, explanations=tuple(explain(each) for each in results))


def _taken_off(name: str, results: Sequence[Result], found: Result, read: PowerRead) -> Row:
    behind = tuple(year.change(read(found), read(result), "W") for result in results)
    figures = tuple(Figure(None if each is None else number(each.value)) for each in behind)
    return Row(name, "power", figures, explanations=behind)


def outage_section(results: Sequence[Result]) -> Section:
    """How long the house stays bearable without power."""
    cuts = [power_cut(result) for result in results]
    lines: tuple[tuple[str, Callable[[PowerCut], Drift | None], float, bool], ...] = (
        (_("Above 55 °F (13 °C), a mean day in January"), _winter_mean, COOL_LIMITS[0], True),
        (_("Above 55 °F (13 °C), the design day"), _winter_design, COOL_LIMITS[0], True),
        (_("Above 40 °F (4 °C), a mean day in January"), _winter_mean, COOL_LIMITS[1], True),
        (_("Above 40 °F (4 °C), the design day"), _winter_design, COOL_LIMITS[1], True),
        (_("Below 85 °F (29 °C), a mean day in July"), _summer_mean, WARM_LIMITS[0], False),
        (_("Below 85 °F (29 °C), the design day"), _summer_design, WARM_LIMITS[0], False),
        (_("Below 90 °F (32 °C), a mean day in July"), _summer_mean, WARM_LIMITS[1], False),
        (_("Below 90 °F (32 °C), the design day"), _summer_design, WARM_LIMITS[1], False),
    )
    return Section(
        _("When the power fails"),
        _(
            "Hours from the set point, with heating, cooling, fans and appliances off, windows "
            "shut, people at home; the design winter day has no sun. The air of a room moves "
            "faster at first than this, which takes the house as one and goes by the mean of the "
            "day: afternoons are warmer, nights colder."
        ),
        tuple(
            Row(
                name,
                "words",
                tuple(_hours(read(cut), limit, winter=winter) for cut in cuts),
                explanations=tuple(
                    outage.hours(result, read(cut), limit, winter=winter)
                    for result, cut in zip(results, cuts, strict=True)
                ),
            )
            for name, read, limit, winter in lines
        ),
    )


def _winter_mean(cut: PowerCut) -> Drift | None:
    return cut.winter_mean


def _winter_design(cut: PowerCut) -> Drift | None:
    return cut.winter_design


def _summer_mean(cut: PowerCut) -> Drift | None:
    return cut.summer_mean


def _summer_design(cut: PowerCut) -> Drift | None:
    return cut.summer_design


def _hours(drift: Drift | None, limit: float, *, winter: bool) -> Figure:
    if drift is None:
        return Figure(None)
    hours = float(drift.hours_above(limit) if winter else drift.hours_below(limit))
    known = None if math.isinf(hours) else hours
    return Figure(known, note=hours_in_words(hours))


def hours_in_words(hours: float) -> str:
    """Hours as people say them; what lasts longer than a week, or for ever, says so."""
    if math.isinf(hours):
        return _("for good")
    if hours > LONGEST_HOURS:
        return _("more than a week")
    if hours >= 48:
        return _("{days:.0f} days").format(days=hours / 24)
    return _("{hours:.0f} hours").format(hours=hours)
