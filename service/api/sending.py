"""Files going out: ranges, strong ETags, never opened by a browser as a page of ours."""

from __future__ import annotations

from flask import Response, request, send_file

from service.api.problems import Problem
from service.api.wiring import parts
from service.storage.files import MissingObject

LOCKED = "sandbox; default-src 'none'"
FOR_THE_STUDIO = "private, max-age=31536000, immutable"
FOR_EVERYBODY = "public, max-age=300"
"""Short: the maker may take a release back."""
CHECK_EACH_TIME = "private, no-cache"


def send_stored(sha256: str, name: str, media_type: str, *, cache: str, size: int | None = None) -> Response:
    """A file of the store, whole or in part (RFC 9110, sections 13 and 14).

    One that is not there, or not `size` bytes long any more, is a fault that is said in words.
    """
    try:
        place = parts().store.path(sha256, size=size)
    except MissingObject as why:
        raise Problem(500, f"{name} is missing or damaged in the store. Submit its project again.") from why
    if request.method == "HEAD":
        # Ranges are defined for GET alone (RFC 9110, 14.2).
        request.environ.pop("HTTP_RANGE", None)
    sent = send_file(
        place,
        mimetype=media_type,
        as_attachment=True,
        download_name=name,
        etag=sha256,
        conditional=True,
    )
    sent.headers["Cache-Control"] = cache
    sent.headers["Content-Security-Policy"] = LOCKED
    sent.headers.pop("Last-Modified", None)
    return sent
