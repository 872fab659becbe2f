"""Lint, format, types and layers, inside the one test command."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT

BIN = Path(sys.executable).parent


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "--no-cache", "."],
        ["ruff", "format", "--no-cache", "--check", "."],
        ["mypy", "--no-incremental"],
        ["lint-imports", "--no-cache"],
    ],
    ids=lambda command: command[0] + "-" + command[1],
)
def test_tool_finds_nothing(command):
    done = subprocess.run(
        [BIN / command[0], *command[1:]], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
