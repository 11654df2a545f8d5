"""A hang told as a failure."""

import contextlib
import signal


@contextlib.contextmanager
def ended_after(seconds):
    """Raises TimeoutError in what is not done by then."""

    def end(*_):
        raise TimeoutError(f"not done after {seconds} s")

    before = signal.signal(signal.SIGALRM, end)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
