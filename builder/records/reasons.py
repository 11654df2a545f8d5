"""Why a size does not fit a coat, why a row cannot be worked out: the words, in the order in which they are told."""

from types import MappingProxyType

# fmt: off
# E16. Each reason weighs as much as all that are told after it and one more: from a sum of weights every one can be
# told, the heaviest first.
REASONS = MappingProxyType({
    "lossy": "too much paint is lost",
    "over_rated": "above the nozzle's rating",
    "over_pump": "above pump or hose rating",
    "starves": "pump cannot feed it once worn",
    "too_small": "orifice too small",
    "too_large": "orifice too large",
    "too_narrow": "fan too narrow",
    "too_wide": "fan too wide",
    "too_coarse": "too coarse for the finish",
    "over_crew": "flow too high for the crew",
    "too_fast": "hand too fast",
    "too_slow": "hand too slow",
})
WEIGHT = MappingProxyType({key: 2.0 ** (len(REASONS) - place) for place, key in enumerate(REASONS, start=1)})
FITS = "fits"


def verdict(against: float) -> str:
    """The heaviest reason in a sum of weights, in words; of none, that it fits."""
    return next((REASONS[key] for key, weight in WEIGHT.items() if against >= weight), FITS)



TOO_OPEN = "openings larger than the face"
TOO_HIGH = "out of reach"
FILM_FAULTS = MappingProxyType({
    "own_film": "dry film entered, but the coating is bought by spread",
    "too_many_guns": "the crew has more guns than the pump feeds",
    "too_few_people": "the crew needs more people than the job has",
    "no_roller": "back-rolled, but the crew has no roller",
    "no_roll_rate": "rolled, but the surface has no rolling rate",
    "no_brush_rate": "brushed, but the surface has no brushing rate",
})
