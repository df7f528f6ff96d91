"""From what went wrong inside to problem details outside."""

from __future__ import annotations

import logging

from flask import Response, request
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response as WerkzeugResponse

from service.api.problems import Problem, answer_problem
from service.api.room import say_faults
from service.craft.faults import DocumentFaults
from service.storage.recovery import NotFound

log = logging.getLogger(__name__)

WORDS = {
    404: "There is nothing at this address.",
    405: "This address does not know the method {method}.",
    412: "It was changed since you read it. Read it again, make your change there, and send its new ETag.",
    413: "The body is too large.",
    428: "Say which state you mean to change: send the ETag you read as If-Match.",
    416: "The file does not have the bytes that were asked for.",
}
KEPT_HEADERS = ("Allow", "Content-Range", "Retry-After", "ETag")


def answer_http(error: HTTPException) -> WerkzeugResponse:
    """What the framework refuses."""
    if error.response is not None or error.code is None or error.code < 400:
        return error.get_response(request.environ)
    detail = WORDS.get(error.code, error.description or "").format(method=request.method)
    headers = {k: v for k, v in error.get_headers() if k in KEPT_HEADERS}
    return answer_problem(Problem(error.code, detail, headers=headers))


def answer_problem_raised(error: Problem) -> Response:
    """What a view refuses."""
    return answer_problem(error)


def answer_faults(error: DocumentFaults) -> Response:
    """A document that cannot be sewn, with every fault."""
    found = [fault.to_json() for fault in error.faults]
    return answer_problem(Problem(422, say_faults(found), name="faults", errors=found))


def answer_not_found(error: NotFound) -> Response:
    """An id that leads nowhere."""
    return answer_problem(Problem(404, f"There is no {error.what} with the id {error.id}."))


def answer_busy(error: OperationalError) -> Response:
    """The database did not answer in time: nothing was changed, and it can be tried again."""
    log.warning("the database did not answer: %s", error.orig)
    detail = "The database is busy. Nothing was changed; send the request again."
    return answer_problem(Problem(503, detail, headers={"Retry-After": "2"}))


def answer_unexpected(error: Exception) -> Response:
    """A fault of ours: the log has it, the answer does not."""
    log.exception("%s %s failed", request.method, request.path, exc_info=error)
    return answer_problem(Problem(500, "Something went wrong here, not in your request. The log says what."))
