"""Every public function of the core says its shapes, range, errors and source."""

import importlib
import inspect
import pkgutil

import pytest

import server.core

MODULES = [
    importlib.import_module(module.name)
    for module in pkgutil.walk_packages(server.core.__path__, "server.core.")
]
FUNCTIONS = [
    pytest.param(function, id=f"{module.__name__}.{name}")
    for module in MODULES
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and not name.startswith("_")
]
CLASSES = [
    pytest.param(kind, id=f"{module.__name__}.{name}")
    for module in MODULES
    for name, kind in inspect.getmembers(module, inspect.isclass)
    if kind.__module__ == module.__name__ and not name.startswith("_")
]


@pytest.mark.parametrize("function", FUNCTIONS)
def test_function_says_shapes_range_errors_and_source(function):
    words = inspect.getdoc(function) or ""
    missing = [key for key in ("Shapes:", "Range:", "Raises:", "Source:") if key not in words]
    assert not missing


@pytest.mark.parametrize("kind", CLASSES)
def test_class_is_described(kind):
    assert kind.__doc__
    assert not kind.__doc__.startswith(f"{kind.__name__}(")  # dataclass's own signature
