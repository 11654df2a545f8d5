"""What a bill asks for while a job runs (E52). Nothing here checks its range: callers do."""

from math import floor


def contract_to_date(signed, changes):
    """The contract on the day of a bill (E52; derived).

        contract_to_date = signed + changes

    Parameters
    ----------
    signed : price as signed, tax included [money]
    changes : what was agreed up to that day, less than 0 where work is left out [money]

    Returns
    -------
    contract with its changes [money]

    Examples
    --------
    4000 as signed, 250 more, 120.50 less.

    >>> contract_to_date(4000.0, 250.0 - 120.5)
    4129.5
    """
    return signed + changes


def done_so_far(earned, planned):
    """The part of the work that is done on the day of a bill, by the hours of the plan (E52; derived).

        done_so_far = min(1, earned / planned), 0 where nothing is planned

    Parameters
    ----------
    earned : planned hours of what the log says is done by then [s]
    planned : hours of the whole plan [s]

    Returns
    -------
    share [-]

    Examples
    --------
    >>> done_so_far(9.0, 36.0), done_so_far(37.0, 36.0), done_so_far(0.0, 0.0)
    (0.25, 1.0, 0.0)
    """
    return min(1.0, earned / planned) if planned > 0 else 0.0


def payments_reached(payments, done, slack):
    """How many of the payments after the deposit have come due (E52; common practice, no source).

        payments_reached = floor(payments * done + slack)

    Payment k of n asks for its part of the work, k/n, and is due once that is done.

    Parameters
    ----------
    payments : of the contract, after the deposit [-]
    done : part of the work that is done [-]
    slack : part of a payment that is rounding [-]

    Returns
    -------
    payments [-]

    Examples
    --------
    Of two payments none at 49 %, one from half the work on, both at its end.

    >>> [payments_reached(2, done, 1e-6) for done in (0.0, 0.49, 0.5, 0.99, 1.0)]
    [0, 0, 1, 1, 2]
    """
    return floor(payments * done + slack)


def by_stages(deposit, reached, changes, done):
    """What is due to date where the contract lists payments (E52; common practice, no source).

        by_stages = deposit + reached + changes * done

    Parameters
    ----------
    deposit : the first payment of the contract [money]
    reached : the payments after it that have come due, added up [money]
    changes : what was agreed up to that day [money]
    done : part of the work that is done [-]

    Returns
    -------
    due to date [money]

    Examples
    --------
    400 at signing, 1800 at half the work, and half of a change of 250.

    >>> by_stages(400.0, 1800.0, 250.0, 0.5)
    2325.0
    """
    return deposit + reached + changes * done


def by_work(deposit, contract, done):
    """What is due to date where bills ask for the work done (E52; derived).

        by_work = max(deposit, contract * done)

    Parameters
    ----------
    deposit : the first payment of the contract [money]
    contract : with its changes [money]
    done : part of the work that is done [-]

    Returns
    -------
    due to date [money]

    Examples
    --------
    Half of 4250; a deposit of 400 covers the first tenth.

    >>> by_work(400.0, 4250.0, 0.5), by_work(400.0, 4250.0, 0.05)
    (2125.0, 400.0)
    """
    return max(deposit, contract * done)


def due_to_date(reckoned, contract, deposit, done, whole, not_ahead):
    """What a contract may have asked for by the day of a bill (E52 [1]).

        due_to_date = min(contract, reckoned)

    Never ahead of the work: at most max(deposit, contract * done) too. All of the contract once all is done.

    Parameters
    ----------
    reckoned : due by stages or by the work done [money]
    contract : with its changes [money]
    deposit : the first payment of the contract [money]
    done : part of the work that is done [-]
    whole : whether that is all of it [-]
    not_ahead : whether no bill after the deposit may ask for more than the work done [-]

    Returns
    -------
    due to date [money]

    Examples
    --------
    2325 by stages at half of a contract of 4250: as it is; not ahead of the work; at the end.

    >>> due_to_date(2325.0, 4250.0, 400.0, 0.5, False, False), due_to_date(2325.0, 4250.0, 400.0, 0.5, False, True)
    (2325.0, 2125.0)
    >>> due_to_date(4250.1, 4250.0, 400.0, 1.0, True, True)
    4250.0

    References
    ----------
    [1] California Business and Professions Code 7159.5(a)(3)-(5) (from memory): after the deposit no payment above the
        value of the work done. Other places have other rules: check your local law.
    """
    if whole:
        return contract
    most = min(contract, by_work(deposit, contract, done)) if not_ahead else contract
    return max(0.0, min(most, reckoned))


def held_back(due, deposit, retained):
    """What a customer keeps of what is due until all is done; the deposit is no part of it (E52; common practice, no
    source).

        held_back = retained * (due - deposit), not below 0

    Parameters
    ----------
    due : to date [money]
    deposit : the first payment of the contract [money]
    retained : share that is held back [-]

    Returns
    -------
    held back [money]

    Examples
    --------
    A tenth of 2325 less the deposit of 400.

    >>> round(held_back(2325.0, 400.0, 0.1), 9)
    192.5
    """
    return retained * (max(due, deposit) - deposit)


def due_now(due, held, paid):
    """What a bill asks for (E52; derived).

        due_now = due - held - paid, not below 0

    Parameters
    ----------
    due : to date [money]
    held : of it, held back [money]
    paid : on earlier bills [money]

    Returns
    -------
    due now [money]

    Examples
    --------
    2325 to date, 192.50 held back, 400 paid; where more is paid than is due, nothing.

    >>> due_now(2325.0, 192.5, 400.0), due_now(2325.0, 192.5, 3000.0)
    (1732.5, 0.0)
    """
    return max(due, held + paid) - (held + paid)
