"""Measured, painted and work area of a face (E1-E3)."""


def gross(factor, length, height):
    """Flat area of a shape (E1).

    factor: of the shape [-]; length, height [m]. Returns [m2].
    """
    return factor * length * height


def opening_share(size, none, both, faces):
    """The part of an opening's size to take from one face, as rules of measurement put it (E3; IS 1200-13:1994 cl. 3.2).

    size, none, both: the opening and the two thresholds [m2]; faces [-]. Returns [-]: 0 up to
    `none`, one face's worth up to `both`, every face's above.
    """
    if size <= none:
        return 0.0
    return 1.0 / faces if size <= both else 1.0


def opening_perimeter(width, height):
    """Edge to mask around one opening. width, height [m]. Returns [m]."""
    return 2 * (width + height)


def measured(gross, openings, coefficient, faces):
    """Area after openings, profile and faces (E2; coefficients as in IS 1200-15:1987 table 1).

    gross, openings [m2]; coefficient, faces [-]. Returns [m2].
    """
    return (gross - openings) * coefficient * faces
