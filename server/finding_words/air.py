"""What is said of air and of what burns."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "fresh air": RuleWords(
        title=N_("Fresh air"),
        source=N_(
            "ASHRAE 62.2, 0.03 cfm per ft² of floor and 7.5 cfm per bedroom and one more "
            "(from memory), against the fan and the leaks of the mildest month; a fan that blows "
            "one way takes part of the leaks' place, so the two add as the root of their squares."
        ),
        told={
            "by fan": (
                N_("A fan brings {fan} of fresh air; {needed} is needed."),
                "",
            ),
            "fan too small": (
                N_(
                    "{needed} of fresh air is needed; the fan brings {fan}, the leaks of the "
                    "mildest month {leaks}."
                ),
                N_("Take a fan of {needed}, so that it does not hang on the leaks."),
            ),
            "by leaks": (
                N_(
                    "{needed} of fresh air is needed; the fan brings {fan} and the leaks of the "
                    "mildest month {leaks}, by chance and not where people sleep."
                ),
                N_("A fan would bring it where and when it is needed."),
            ),
            "too little": (
                N_(
                    "{needed} of fresh air is needed; the fan brings {fan} and the leaks of the "
                    "mildest month {leaks}."
                ),
                N_(
                    "Add a balanced ventilation fan, best with heat recovery, of at least "
                    "{needed}; no fan that only exhausts where something burns with an open flue."
                ),
            ),
        },
    ),
    "draft and carbon monoxide": RuleWords(
        title=N_("Draft and carbon monoxide"),
        source=N_(
            "Common practice in weatherization: test draft and carbon monoxide before and after a"
            " house is made tighter."
        ),
        told={
            "open flue, fan draws": (
                N_(
                    "Something burns with air from the rooms and an open flue, and the work brings "
                    "a fan that moves air one way only: where it draws air out, smoke comes back."
                ),
                N_(
                    "Take a fan that brings in as much as it takes out; test draft and carbon "
                    "monoxide before and after, at the worst case of fans and doors; replace the "
                    "appliance with a sealed one where it fails. Fit carbon-monoxide alarms."
                ),
            ),
            "open flue, tighter": (
                N_(
                    "Something burns with air from the rooms and an open flue, and the house is "
                    "made tighter: its smoke can come back."
                ),
                N_(
                    "Test draft and carbon monoxide before and after, at the worst case of fans "
                    "and doors; replace it with a sealed one where it fails. Fit carbon-monoxide "
                    "alarms."
                ),
            ),
            "open flue": (
                N_("Something burns with air from the rooms and an open flue."),
                N_("Fit carbon-monoxide alarms, and have it looked at every year."),
            ),
            "sealed": (
                N_("What burns takes its air from outdoors."),
                N_("Fit carbon-monoxide alarms all the same."),
            ),
            "none": (
                N_("Nothing burns in the house."),
                "",
            ),
            "not looked at": (
                N_("Nobody has said what burns in the house and where its air comes from."),
                N_(
                    "Look at furnace, water heater, stove and fireplace, and answer it in the "
                    "survey; test before the house is made tighter."
                ),
            ),
        },
    ),
}
