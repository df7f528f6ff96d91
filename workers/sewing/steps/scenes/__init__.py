"""A small drawing for every step: the action it tells, and the same in words."""

from workers.sewing.steps.scenes.finding import draw_step_picture

__all__ = ["draw_step_picture"]
