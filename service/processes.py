"""Small things about processes that the supervisor and the workers share."""

from __future__ import annotations

import ctypes
import signal
import sys

PR_SET_PDEATHSIG = 1
"""From `prctl(2)` of Linux: the signal a process gets when its parent ends."""


def die_with_parent() -> None:
    """End this process when its parent ends, however that happens. Without effect outside Linux."""
    if sys.platform == "linux":
        ctypes.CDLL(None, use_errno=True).prctl(PR_SET_PDEATHSIG, signal.SIGKILL, 0, 0, 0)
