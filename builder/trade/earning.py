"""What is done of a plan, and what follows for the rest of it. Nothing here checks its range: callers do."""


def share_done(measured, planned, finished):
    """The part of a coat or task that is done (common practice, no source).

        share_done = min(1, measured / planned), 1 once it is finished

    Parameters
    ----------
    measured : area coated so far, or hours paid for a task, which stand for it here [s]
    planned : the same of the plan, more than 0 [s]
    finished : whether somebody said that nothing is left to do [-]

    Returns
    -------
    share [-]

    Examples
    --------
    >>> share_done(300.0, 400.0, False), share_done(500.0, 400.0, False), share_done(390.0, 400.0, True)
    (0.75, 1.0, 1.0)
    """
    return 1.0 if finished else min(1.0, measured / planned)


def pace(earned, paid):
    """Hours of the plan that an hour paid has earned; 1 before anything is earned (E49).

        pace = earned / paid

    Parameters
    ----------
    earned : planned hours of what is done [s]
    paid : hours paid for it [s]

    Returns
    -------
    pace [-]

    Examples
    --------
    >>> pace(36.0, 40.0), pace(0.0, 8.0)
    (0.9, 1.0)

    References
    ----------
    [1] Cost performance index of earned value management: ANSI/EIA-748 (from memory), in hours.
    """
    return earned / paid if earned > 0 and paid > 0 else 1.0


def hours_at_end(paid, planned, earned, pace):
    """What a job will have taken at its end if it goes on as it went (E49).

        hours_at_end = paid + (planned - earned) / pace

    Parameters
    ----------
    paid : all hours paid so far, those of work that was not planned too [s]
    planned : hours of the plan [s]
    earned : hours of the plan of what is done of it [s]
    pace : planned hours that an hour earns [-]

    Returns
    -------
    hours [s]

    Examples
    --------
    40 paid, 36 of 90 earned: 54 to go at 0.9.

    >>> hours_at_end(40.0, 90.0, 36.0, 0.9)
    100.0

    References
    ----------
    [1] Estimate at completion of earned value management: ANSI/EIA-748 (from memory), in hours.
    """
    return paid + (planned - earned) / pace


def seen_loss(laid, used):
    """The part of the paint that is not on the face, where the wet film was read (E50; derived).

        seen_loss = 1 - laid / used

    Parameters
    ----------
    laid : area done times the wet film read on it [m**3]
    used : what came out of the pail for it [m**3]

    Returns
    -------
    loss [-]

    Examples
    --------
    >>> round(seen_loss(7.5, 10.0), 9)
    0.25
    """
    return 1 - laid / used


def still_needed(planned, area, done, used, share):
    """Paint that the rest of a coat takes: as much an area as it took so far (E50; derived).

        still_needed = (area - done) * used / done, nothing once all is done

    Before any area is logged the plan's own figure is taken for what is left of it.

    Parameters
    ----------
    planned : paint of the whole coat by the plan [m**3]
    area : of the whole coat [m**2]
    done : of it so far [m**2]
    used : so far [m**3]
    share : of the coat that is done [-]

    Returns
    -------
    paint [m**3]

    Examples
    --------
    A quarter of the area is left at 2 for 300; nothing logged yet; finished.

    >>> still_needed(2.5, 400.0, 300.0, 2.0, 0.75), still_needed(2.5, 400.0, 0.0, 0.0, 0.0)
    (0.6666666666666666, 2.5)
    >>> still_needed(2.5, 400.0, 390.0, 2.0, 1.0)
    0.0
    """
    if share >= 1:
        return 0.0
    if done > 0 and used > 0:
        return max(0.0, area - done) * used / done
    return planned * (1 - share)
