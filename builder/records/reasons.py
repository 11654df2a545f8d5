"""Why a size does not fit a coat, why a row cannot be worked out: the words, in the order in which they are told."""
from types import MappingProxyType

REASONS = MappingProxyType({            # E16
    "lossy": "too much is lost",
    "over_rated": "above the nozzle's rating",
    "over_pump": "above the rating of pump or hose",
    "starves": "the pump cannot feed it once worn",
    "too_small": "orifice too small for the coating",
    "too_large": "orifice too large for the coating",
    "too_narrow": "fan too narrow for the surface",
    "too_wide": "fan too wide for the surface",
    "too_coarse": "too coarse for the finish",
    "over_crew": "more flow than the crew handles",
    "too_fast": "hand too fast",
    "too_slow": "hand too slow",
})
FITS = "fits"

TOO_OPEN = "more opening than face"
FILM_FAULTS = MappingProxyType({
    "own_film": "own dry film on a coating bought by spread",
    "too_many_guns": "the crew has more guns than the pump runs",
    "no_roller": "sprayed and back-rolled, but the crew has nobody to roll",
    "no_roll_rate": "rolled, but the surface has no rolling rate",
    "no_brush_rate": "brushed, but the surface has no brushing rate",
})
