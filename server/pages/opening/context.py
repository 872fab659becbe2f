"""What the opening page shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from server.files.faults import Fault
from server.units import System


def opening_context(
    text: str = "", faults: Sequence[Fault] = (), units: System = "ip"
) -> dict[str, Any]:
    """The form with what was typed and what was wrong with it."""
    return {"text": text, "faults": faults, "units": units}
