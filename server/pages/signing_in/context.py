"""What the sign-in pages show."""

from __future__ import annotations

from gettext import gettext as _
from typing import Any

from server.pages.signing_in.forms import Attempt


def sign_in_context(then: str, attempt: Attempt | None = None) -> dict[str, Any]:
    """The form, with what was typed and why it did not work."""
    fault = None
    if attempt is not None and attempt.throttled:
        fault = _(
            "Too many attempts have failed. Wait a quarter of an hour, or ask the lead of your "
            "firm for a sign-in link."
        )
    elif attempt is not None:
        fault = _("This email and password do not belong together. Try again.")
    email = attempt.form.email if attempt else ""
    return {"then": then, "email": email, "fault": fault}


def dead_link_context() -> dict[str, Any]:
    """A link that does not work."""
    return {
        "title": _("This sign-in link no longer works"),
        "words": _(
            "A link signs in once, within 72 hours. Ask the lead of your firm for another one, "
            "or sign in with your email and password."
        ),
    }
