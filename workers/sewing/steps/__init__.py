"""Step lists: what a track's viewers do, one action a step, the reason after it."""

from workers.sewing.steps.writing import list_steps, step_objects

__all__ = ["list_steps", "step_objects"]
