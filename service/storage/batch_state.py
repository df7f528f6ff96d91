"""The state of a batch, from how many of its jobs are in which state."""

from __future__ import annotations

from collections.abc import Mapping

from service.storage.models import JobState

OPEN = (JobState.HELD, JobState.PENDING, JobState.PROCESSING)
"""The states from which a job goes on by itself."""

ENDED = (JobState.STOPPED, JobState.CANCELED, JobState.ABORTED, JobState.COMPLETED)
"""The states in which a job stays unless somebody acts."""


def derive_batch_state(counts: Mapping[str, int]) -> JobState:
    """One word for the whole batch.

    While anything can still go on it is `pending` (nothing was begun) or `processing`; after that
    `aborted` if any job failed, else `canceled` if any was canceled, else `completed`.

    >>> derive_batch_state({"pending": 3, "held": 2}).value
    'pending'
    >>> derive_batch_state({"pending": 3, "completed": 2}).value
    'processing'
    >>> derive_batch_state({"aborted": 1, "stopped": 2, "completed": 9}).value
    'aborted'
    >>> derive_batch_state({"canceled": 1, "completed": 9}).value
    'canceled'
    """
    present = {state for state, count in counts.items() if count}
    if present & set(OPEN):
        return JobState.PENDING if present <= {JobState.HELD, JobState.PENDING} else JobState.PROCESSING
    if present & {JobState.ABORTED, JobState.STOPPED}:
        return JobState.ABORTED
    return JobState.CANCELED if JobState.CANCELED in present else JobState.COMPLETED
