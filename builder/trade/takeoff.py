"""Measured, painted and work area of a face (E1-E3, E37). Nothing here checks its range: callers do."""


def gross(factor, length, height):
    """Flat area of a shape (E1; geometry, derived).

        gross = factor * length * height

    The factor is 1 for a rectangle and a strip, 1/2 for a triangle, pi for a cylinder, whose length is its diameter.

    Parameters
    ----------
    factor : factor of the shape [-]
    length : length, base or diameter [m]
    height : height, or girth of a strip [m]

    Returns
    -------
    flat area of one face [m**2]

    Examples
    --------
    A gable 7.2 m wide and 2.5 m high.

    >>> gross(0.5, 7.2, 2.5)
    9.0
    """
    return factor * length * height


def opening_share(size, none, both, faces):
    """The part of an opening's size to take from one face (E3; IS 1200-13:1994 cl. 3.2, read).

        0 up to `none`, 1 / faces up to `both`, 1 above

    1 / faces, taken from every face, is one face's worth. With `both` below `none`, everything above `none` counts on
    all faces.

    Parameters
    ----------
    size : area of the opening [m**2]
    none : largest opening that is not deducted [m**2]
    both : largest opening that is deducted from one face only [m**2]
    faces : faces that are measured [-]

    Returns
    -------
    share of the opening deducted from each face [-]

    Examples
    --------
    The thresholds of the standard, painted on both faces.

    >>> [opening_share(size, 0.5, 3.0, 2) for size in (0.5, 3.0, 3.1)]
    [0.0, 0.5, 1.0]

    References
    ----------
    [1] IS 1200-13:1994, clause 3.2 (read); other standards differ, so the thresholds are the job's.
    """
    if size <= none:
        return 0.0
    return 1.0 / faces if size <= both else 1.0


def opening_perimeter(width, height):
    """Edge to mask around one opening (E3; geometry, derived).

        opening_perimeter = 2 * (width + height)

    Parameters
    ----------
    width : width of the opening [m]
    height : height of the opening [m]

    Returns
    -------
    perimeter [m]

    Examples
    --------
    >>> opening_perimeter(1.0, 2.0)
    6.0
    """
    return 2 * (width + height)


def measured(gross, openings, coefficient, faces):
    """Area after openings, profile and faces (E2; coefficients of IS 1200-15:1987 table 1, restated).

        measured = (gross - openings) * coefficient * faces

    Negative where more is taken out than there is: callers make that a fault.

    Parameters
    ----------
    gross : flat area of one face [m**2]
    openings : what is deducted from each face [m**2]
    coefficient : of the profile, measured or paint-taking [-]
    faces : faces measured, 1 where the coefficient covers all over [-]

    Returns
    -------
    measured or coated area [m**2]

    Examples
    --------
    A panelled door of 0.9 x 2.1 m, 1.30 a side, both sides; 10 m2 less 2 m2.

    >>> round(measured(0.9 * 2.1, 0.0, 1.30, 2), 3), measured(10.0, 2.0, 1.5, 2)
    (4.914, 24.0)

    References
    ----------
    [1] IS 1200-15:1987, table 1 (restated; four copies agree).
    """
    return (gross - openings) * coefficient * faces


def top(base, height):
    """How high a face ends above the ground (E37; derived).

        top = base + height

    Parameters
    ----------
    base : of its foot above the ground [m]
    height : of the face; 0 where it does not stand, as a strip's girth or a pipe's diameter [m]

    Returns
    -------
    height above the ground [m]

    Examples
    --------
    An upper story of 2.5 m from 3 m up.

    >>> top(3.0, 2.5)
    5.5
    """
    return base + height
