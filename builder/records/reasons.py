"""Why a size does not fit a coat, why a row cannot be worked out: the words, in the order in which they are told."""
from types import MappingProxyType

# E16. A column of the nozzle check holds the number of its reason, from 1, or 0; the least number of a row is told first.
REASONS = MappingProxyType({
    "lossy": "too much is lost",
    "over_rated": "above the nozzle's rating",
    "over_pump": "above pump or hose rating",
    "starves": "pump cannot feed it worn",
    "too_small": "orifice too small",
    "too_large": "orifice too large",
    "too_narrow": "fan too narrow",
    "too_wide": "fan too wide",
    "too_coarse": "too coarse for the finish",
    "over_crew": "too much for the crew",
    "too_fast": "hand too fast",
    "too_slow": "hand too slow",
})
NUMBER = {key: float(number) for number, key in enumerate(REASONS, start=1)}
COLUMNS = MappingProxyType({            # the columns of the nozzle check, and the reasons each can hold: two that exclude each other share one
    "lossy": ("lossy",), "over_rated": ("over_rated",), "over_pump": ("over_pump",), "starves": ("starves",),
    "orifice": ("too_small", "too_large"), "fan": ("too_narrow", "too_wide"), "coarse": ("too_coarse",), "over_crew": ("over_crew",),
    "hand": ("too_fast", "too_slow"),
})
FITS = "fits"

TOO_OPEN = "more opening than face"
FILM_FAULTS = MappingProxyType({
    "own_film": "own dry film on a coating bought by spread",
    "too_many_guns": "the crew has more guns than the pump runs",
    "too_few_people": "the crew has more people than the job",
    "no_roller": "sprayed and back-rolled, but the crew has nobody to roll",
    "no_roll_rate": "rolled, but the surface has no rolling rate",
    "no_brush_rate": "brushed, but the surface has no brushing rate",
})
