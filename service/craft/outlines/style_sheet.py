"""The little of a style sheet that decides what is an outline: plain selectors and the few properties looked at.

Read are rules for an element's name, a class, an id or `*`, alone or in a list. Any other selector, and every rule
that begins with `@`, is passed over and said so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_AT_RULE = re.compile(r"@[^{};]*(?:;|\{(?:[^{}]*\{[^{}]*\})*[^{}]*\})")
_RULE = re.compile(r"([^{}]*)\{([^{}]*)\}")
_SELECTOR = re.compile(r"\*|[A-Za-z][\w-]*|[.#][\w-]+|[A-Za-z][\w-]*\.[\w-]+")

RULES_AT_MOST = 2000

Rules = dict[str, list[str]]
"""Declarations by selector, in the order of the sheet."""


def read_style_sheets(texts: list[str]) -> tuple[Rules, bool]:
    """The rules of all sheets by selector, and whether any were passed over."""
    rules: Rules = {}
    passed_over = False
    for text in texts:
        plain = _COMMENT.sub("", text)
        without_at = _AT_RULE.sub("", plain)
        passed_over |= without_at != plain
        for n, (selectors, declarations) in enumerate(_RULE.findall(without_at)):
            if n >= RULES_AT_MOST:
                return rules, True
            for selector in selectors.split(","):
                if _SELECTOR.fullmatch(selector.strip()):
                    rules.setdefault(selector.strip(), []).append(declarations)
                else:
                    passed_over = True
    return rules, passed_over


def find_declarations(rules: Rules, kind: str, attributes: Mapping[str, str]) -> str:
    """What the rules declare for an element, the more particular later: element, class, element with class, id."""
    if not rules:
        return ""
    classes = attributes.get("class", "").split()[:50]
    selectors = ["*", kind, *(f".{c}" for c in classes), *(f"{kind}.{c}" for c in classes)]
    selectors += [f"#{attributes['id']}"] if "id" in attributes else []
    return ";".join(text for selector in selectors for text in rules.get(selector, ()))
