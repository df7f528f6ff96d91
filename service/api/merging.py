"""JSON merge patch (RFC 7396)."""

from __future__ import annotations

from typing import Any


def merge_patch(target: Any, patch: Any) -> Any:
    """The target changed as the patch says; null takes a field away, a list is replaced whole.

    >>> merge_patch({"a": {"b": 1, "c": 2}, "d": [1]}, {"a": {"c": None}, "d": [2]})
    {'a': {'b': 1}, 'd': [2]}
    """
    if not isinstance(patch, dict):
        return patch
    merged = dict(target) if isinstance(target, dict) else {}
    for name, value in patch.items():
        if value is None:
            merged.pop(name, None)
        else:
            merged[name] = merge_patch(merged.get(name), value)
    return merged
