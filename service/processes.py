"""Small things about processes that the supervisor and the workers share."""

from __future__ import annotations

import ctypes
import os
import signal
import sys
import threading
import time

PR_SET_PDEATHSIG = 1
"""From `prctl(2)` of Linux: the signal a process gets when its parent ends."""


def die_with_parent() -> None:
    """End this process when its parent ends, however that happens. Without effect outside Linux."""
    if sys.platform == "linux":
        ctypes.CDLL(None, use_errno=True).prctl(PR_SET_PDEATHSIG, signal.SIGKILL, 0, 0, 0)


def end_when_orphaned(*, look_every_seconds: float = 0.5) -> None:
    """End this process soon after its parent process ended. For children of a pool that threads may fork.

    `die_with_parent` would not do there: it takes the end of the forking thread for that of the parent.
    """
    parent = os.getppid()

    def watch() -> None:
        while os.getppid() == parent:
            time.sleep(look_every_seconds)
        os._exit(1)

    threading.Thread(target=watch, name="orphan watch", daemon=True).start()
