"""The commands, as a shell runs them."""

from __future__ import annotations

import json
import socket
import subprocess
import sys

import pytest

from server.__main__ import main
from server.files.seeds import DEMO_HOUSE
from tests.conftest import ROOT, SMALL_HOUSE

NO_WEB_OR_DATABASE = """
import sys
from server.__main__ import main
assert main(["compare", sys.argv[1], "--json"]) == 0
roots = {name.partition(".")[0] for name in sys.modules}
heavy = {"fastapi", "starlette", "uvicorn", "jinja2", "sqlalchemy", "pandas"}
print(sorted(roots & heavy), file=sys.stderr)
"""


def test_compare_brings_neither_web_nor_database():
    done = subprocess.run(
        [sys.executable, "-c", NO_WEB_OR_DATABASE, str(SMALL_HOUSE)],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=True,
    )
    assert done.stderr.strip() == "[]"
    assert json.loads(done.stdout)["format"] == "warmside-comparison/1"


@pytest.mark.parametrize("path", [SMALL_HOUSE, DEMO_HOUSE], ids=["small", "demo"])
@pytest.mark.parametrize("units", ["ip", "si"])
def test_table_fits_a_hundred_columns(path, units, capsys):
    assert main(["compare", str(path), "--units", units]) == 0
    table = capsys.readouterr().out
    assert max(map(len, table.splitlines())) <= 100
    for words in ("Heating need", "Cost of fuel a year", "Carbon dioxide", "Walls", "Hybrid"):
        assert words in table


def test_units_change_the_table(capsys):
    main(["compare", str(SMALL_HOUSE), "--units", "ip"])
    inch_pound = capsys.readouterr().out
    main(["compare", str(SMALL_HOUSE), "--units", "si"])
    metric = capsys.readouterr().out
    assert "h·ft²·°F/Btu" in inch_pound
    assert "therm" in inch_pound
    assert "m²·K/W" in metric
    assert "Btu" not in metric


def test_findings_stand_before_the_figures_with_the_column_they_are_of(capsys):
    assert main(["compare", str(DEMO_HOUSE), "--units", "ip"]) == 0
    told = capsys.readouterr().out.partition("A year in figures")[0]
    assert "STOP  Old wiring (Cavity only, Hybrid)" in told
    assert "    - Hybrid: north wall, north wall under the porch, east wall and 17 more" in told
    assert "- sun-room roof: 11.61 lb/ft² (at most 10.00 lb/ft²)" in told.replace("\u00a0", " ")
    good = told.partition("GOOD  ")[2]
    assert "To which side it can dry" in good
    assert "Old wiring" not in good


def test_seven_strategies_still_fit(tmp_path, capsys):
    document = json.loads(SMALL_HOUSE.read_text())
    first = document["strategies"][0]
    document["strategies"] = [first | {"name": f"Variant number {n} of many"} for n in range(7)]
    file = tmp_path / "many.json"
    file.write_text(json.dumps(document))
    assert main(["compare", str(file)]) == 0
    table = capsys.readouterr().out
    assert max(map(len, table.splitlines())) <= 100
    flat = " ".join(table.split())
    assert all(f"{n}" in flat for n in range(7))


def test_a_bad_file_gives_one_line_a_fault_and_exit_two(tmp_path, capsys):
    document = json.loads(SMALL_HOUSE.read_text())
    document["components"][3]["area"] = "-4 m^2"
    document["storeys"] = 0
    file = tmp_path / "bad.json"
    file.write_text(json.dumps(document))
    assert main(["compare", str(file)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.splitlines()[0].startswith("components[3].area, read “-4 m^2”: ")


def test_a_file_that_is_not_there(capsys):
    assert main(["compare", "no-such-house.json"]) == 2
    assert capsys.readouterr().err == "no-such-house.json: No such file or directory\n"


def test_standard_input(monkeypatch, capsys):
    with SMALL_HOUSE.open("rb") as file:
        monkeypatch.setattr(sys, "stdin", type("Piped", (), {"buffer": file}))
        assert main(["compare", "-", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["house"] == "Small example house (invented)"


@pytest.mark.parametrize("port", ["0", "70000", "http", "-1"])
def test_a_port_that_is_none(port, capsys):
    with pytest.raises(SystemExit) as exit_status:
        main(["--port", port])
    assert exit_status.value.code == 2
    assert "a port is a whole number" in capsys.readouterr().err


def test_a_busy_port_is_a_clear_message(capsys):
    with socket.socket() as holder:
        holder.bind(("127.0.0.1", 0))
        holder.listen()
        port = holder.getsockname()[1]
        assert main(["--port", str(port)]) == 1
    assert f"Port {port} on 127.0.0.1 is in use" in capsys.readouterr().err
