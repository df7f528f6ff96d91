"""Every refusal as problem details (RFC 9457): what is wrong, where, and what would be right."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from http import HTTPStatus
from typing import Any

from flask import Response, request

MEDIA_TYPE = "application/problem+json"
PLAIN = "about:blank"
"""The type of a problem that its status says completely (RFC 9457, section 4.2.1)."""

EXPLAINED: Mapping[str, tuple[str, str]] = {
    "faults": (
        "This cannot be done as it stands",
        "Each entry of `errors` names one place by a JSON pointer, what is wrong there and what would be "
        "right. All faults that were found are listed; mend them and send it again.",
    ),
    "not-ready": (
        "The project is not ready for a batch",
        "What stands in the way is listed as by `GET /projects/{id}/check`, with the project's id.",
    ),
    "unreadable-outline": (
        "The drawing cannot be read",
        "The place in the file and what would be right are in `errors`. Nothing of it was kept.",
    ),
    "in-use": (
        "It is in use",
        "What is to go is still needed by something else, which the detail names.",
    ),
    "not-made-yet": (
        "This is not made yet",
        "Submit a batch that makes it, or wait for the one that is on its way.",
    ),
    "key-reused": (
        "The Idempotency-Key was used before",
        "The same key came with another request. Take a new key for a new request.",
    ),
    "not-failed": (
        "Only a failed job can be retried",
        "The job is in another state, which the detail names.",
    ),
}
"""Our own types of problem; `GET /api/v1/problems/{name}` answers with these words."""


class Problem(Exception):
    """A request that is refused. `errors` are faults: pointer, detail, right."""

    def __init__(
        self,
        status: int,
        detail: str,
        *,
        name: str = "",
        errors: Iterable[Mapping[str, Any]] = (),
        headers: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(detail)
        self.status = status
        self.detail = detail
        self.name = name
        self.errors = [dict(error) for error in errors]
        self.headers = dict(headers or {})

    def to_json(self, instance: str) -> dict[str, Any]:
        """The body of the answer."""
        title = EXPLAINED[self.name][0] if self.name else HTTPStatus(self.status).phrase
        return {
            "type": f"/api/v1/problems/{self.name}" if self.name else PLAIN,
            "title": title,
            "status": self.status,
            "detail": self.detail,
            "instance": instance,
            "errors": self.errors,
        }


def fault(detail: str, right: str = "", *, pointer: str = "", **more: str) -> dict[str, str]:
    """One entry of `errors`."""
    return {"pointer": pointer, "detail": detail, "right": right, **more}


def refuse_one(detail: str, right: str, *, pointer: str = "", status: int = 422) -> Problem:
    """A problem with a single fault in the body."""
    return Problem(status, detail, name="faults", errors=[fault(detail, right, pointer=pointer)])


def answer_problem(problem: Problem) -> Response:
    """The answer that says the problem; never kept by a cache."""
    body = json.dumps(problem.to_json(request.path), ensure_ascii=False) + "\n"
    response = Response(body.encode("utf-8", "replace"), status=problem.status, mimetype=MEDIA_TYPE)
    response.headers["Cache-Control"] = "no-store"
    response.headers.update(problem.headers)
    return response
