"""What an owner says to an offer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from gettext import gettext as _

from starlette.datastructures import FormData

from server.offers.offer import Content
from server.pages.form_texts import text_of

LONGEST_NAME = 120
LONGEST_QUESTION = 2000
UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True)
class AnswerForm:
    """What was typed, and what was wrong with it, by field; `page` for the whole."""

    name: str = ""
    choice: str = ""
    question: str = ""
    faults: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_good(self) -> bool:
        """Whether it can be kept."""
        return not self.faults


def choices(content: Content) -> list[tuple[str, str]]:
    """What can be picked: a value for the form, and the words that are kept."""
    options = [(str(index), option["name"]) for index, option in enumerate(content["options"])]
    work_first = [*options[1:], *options[:1]]
    return [*work_first, (UNDECIDED, _("Not decided yet"))]


def answer_of(form: FormData, content: Content) -> AnswerForm:
    """The form as sent, with its faults."""
    name, choice = text_of(form, "name"), text_of(form, "choice")
    question = text_of(form, "question")
    faults = {}
    if not choice and question:
        choice = UNDECIDED
    if not name:
        faults["name"] = _("Please write your name.")
    elif len(name) > LONGEST_NAME:
        faults["name"] = _("At most {most} characters.").format(most=LONGEST_NAME)
    if choice not in dict(choices(content)):
        faults["choice"] = _("Please pick one, or ask a question.")
    if len(question) > LONGEST_QUESTION:
        faults["question"] = _("At most {most} characters.").format(most=LONGEST_QUESTION)
    return AnswerForm(name, choice, question, faults)
