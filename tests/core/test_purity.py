"""The core imports the standard library, NumPy and SciPy only."""

import subprocess
import sys

PROGRAM = """
import pkgutil, importlib, sys
import server.core
for module in pkgutil.walk_packages(server.core.__path__, "server.core."):
    importlib.import_module(module.name)
roots = {name.partition(".")[0] for name in sys.modules}
print(sorted(roots & {"fastapi", "starlette", "sqlalchemy", "pydantic", "jinja2", "pint"}))
"""


def test_core_brings_no_web_database_or_unit_package():
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
