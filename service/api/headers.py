"""Headers that every answer carries unless a view chose its own."""

from __future__ import annotations

from flask import Response

SAFE = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Frame-Options": "DENY",
    # What an answer holds depends on who asks; nobody's copy is shown to somebody else.
    "Cache-Control": "private, no-cache",
}


def add_headers(response: Response) -> Response:
    """Put in what the view left out. No other site may read answers: there is no CORS header among them."""
    for name, value in SAFE.items():
        response.headers.setdefault(name, value)
    response.vary.add("Authorization")
    return response
