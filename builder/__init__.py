"""Wetfilm: catalogs and a job file in, a living estimate workbook out.

What programs may call stands in `builder.api` and is had from here, as in `from builder import open_job, make`. It is
loaded when it is first asked for.
"""

TYPE_CHECKING = False  # checkers of types take it for true; that of `typing` would have to be loaded
if TYPE_CHECKING:
    from builder.api import Refused, estimate, inspect, learn, make, open_job, read

__version__ = "0.1.0"
__all__ = ["Refused", "estimate", "inspect", "learn", "make", "open_job", "read"]


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(f"module 'builder' has no attribute '{name}'")
    from builder import api

    return getattr(api, name)
