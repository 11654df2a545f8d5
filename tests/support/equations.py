"""The equations of builder/trade: every module, and every public function and class in it; a new one is found."""

import importlib
import inspect
import pkgutil
from dataclasses import is_dataclass

from builder import trade

MODULES = [importlib.import_module(f"builder.trade.{found.name}") for found in pkgutil.iter_modules(trade.__path__)]
PUBLIC = {
    f"{module.__name__.rpartition('.')[2]}.{name}": thing
    for module in MODULES
    for name, thing in inspect.getmembers(module)
    if not name.startswith("_")
    and getattr(thing, "__module__", None) == module.__name__
    and (inspect.isfunction(thing) or is_dataclass(thing))
}
FUNCTIONS = {name: thing for name, thing in PUBLIC.items() if inspect.isfunction(thing)}
