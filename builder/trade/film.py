"""Wet film, loss and what a coated area takes of material and paint (E4-E8)."""


def wet_film(dry_film, volume_solids, thinning):
    """Wet film that dries to `dry_film` (E4; ASTM D4414-95(2020) 4.2).

    dry_film [m]; volume_solids, thinning [-]. Returns [m].
    """
    return dry_film * (1 + thinning) / volume_solids


def wet_film_of_spread(spread, thinning):
    """Wet film of a coating bought by spread (E4).

    spread: area over volume of unthinned material [1/m]; thinning [-]. Returns [m].
    """
    return (1 + thinning) / spread


def theoretical_spread(dry_film, volume_solids):
    """Area one volume of unthinned paint covers without loss (E5). dry_film [m]; volume_solids [-]. Returns [1/m]."""
    return volume_solids / dry_film


def mean_uptake(uptake, coats):
    """Uptake averaged over the coats, the first alone meeting the bare face (E8). uptake, coats [-]. Returns [-]."""
    return (uptake + coats - 1) / coats


def loss(surface_loss, family_factor, exposure_factor):
    """Share of the sprayed material that misses the work as overspray and bounce (E6). All [-]. Returns [-]."""
    return surface_loss * family_factor * exposure_factor


def lap(fan, overlap):
    """Advance from one pass to the next (E7). fan [m]; overlap [-]. Returns [m]."""
    return fan * (1 - overlap)


def band(fan, clear_width, lap):
    """Width sprayed to cover a face `clear_width` wide (E7). All [m]. Returns [m]."""
    return max(fan, clear_width + lap / 2)


def step(fan, clear_width, lap, slack=0.0):
    """Width that one pass covers: the fan where one pass does, else the lap (E7). All [m] but slack [-]. Returns [m]."""
    return fan if clear_width <= fan * (1 + slack) else lap


def miss(solid, clear_width, band):
    """Share of the pattern that passes the face by (E7). solid [-]; clear_width, band [m]. Returns [-]."""
    return 1 - solid * clear_width / band


def material(wet_film, mean_uptake, loss, miss):
    """Thinned material per coated area and coat (E8). wet_film [m]; the others [-]. Returns [m] (volume over area)."""
    return wet_film * mean_uptake / ((1 - loss) * (1 - miss))


def paint(material, thinning):
    """The unthinned part of a volume of material (E8). material [m] or [m3]; thinning [-]. Returns the same unit."""
    return material / (1 + thinning)


def thinned_density(density, thinning, thinner_density):
    """Density as sprayed (E9). density, thinner_density [kg/m3]; thinning [-]. Returns [kg/m3]."""
    return (density + thinning * thinner_density) / (1 + thinning)
