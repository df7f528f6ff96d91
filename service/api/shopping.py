"""What to buy: for one project, a month, or a whole series, in any number of kits."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from flask import Response, request

from service.api.access import Circle
from service.api.problems import Problem, fault
from service.api.room import Answer, Room, say_faults
from service.api.schemas.shopping import SeriesShoppingQuery, ShoppingQuery, ShoppingSchema
from service.api.shopping_csv import MEDIA_TYPE, write_csv
from service.api.wiring import parts
from service.craft.shopping import MOST_PROJECTS, CannotShop, ShoppingProject
from service.craft.tracks import slug
from service.studio.shopping import Busy, NotHere, NothingThatDay, gather_project, gather_series

room = Room("shopping", __name__, description="What to buy, in any number of kits.")

JSON = "application/json"
TABLE = Answer(200, {"type": "string"}, media_type=MEDIA_TYPE, words="The list, or as a table with CSV.")
ANSWERS = (Answer(200, ShoppingSchema), TABLE, Answer(304, words="It has not changed."))


@room.route_to(
    "/projects/<id_>/shopping", "GET", Circle.STUDIO, *ANSWERS, query=ShoppingQuery, refuses=(404, 503)
)
def show_project_shopping(query: dict[str, Any], id_: str) -> Any:
    """List what to buy for so many kits of a project, and the studio's own beside it."""
    with parts().database.reading() as session:
        project = gather_project(session, id_)
    return _answer([project], query, name=project.title)


@room.route_to(
    "/series/<id_>/shopping", "GET", Circle.STUDIO, *ANSWERS, query=SeriesShoppingQuery, refuses=(404, 503)
)
def show_series_shopping(query: dict[str, Any], id_: str) -> Any:
    """List what to buy for so many kits of every project of a series, or of one release date.

    A cloth that several projects use is planned apart and together: what buying at once saves is said.
    """
    release = query["release"] and date.fromisoformat(query["release"])
    with parts().database.reading() as session:
        try:
            series, projects = gather_series(session, id_, release)
        except NothingThatDay as why:
            listed = ", ".join(day.isoformat() for day in why.dates) or "none yet"
            missing = fault(f"{why}", f"a date of its projects: {listed}", parameter="release")
            raise Problem(404, f"{why}", errors=[missing]) from why
        about = {"series": series.id, "release": query["release"]}
        name = query["release"] or series.title
    return _answer(projects, query, name=name, **about)


def _answer(
    projects: Sequence[ShoppingProject],
    query: Mapping[str, Any],
    *,
    name: str,
    series: str | None = None,
    release: str | None = None,
) -> Response:
    """The list in the form asked for. Its ETag is the sha256 of its bytes."""
    if len(projects) > MOST_PROJECTS:
        detail = f"The list would be for {len(projects)} projects; one list holds {MOST_PROJECTS}"
        right = "one release at a time: release=2027-01-20"
        raise Problem(422, f"{detail}.", name="faults", errors=[fault(detail, right, parameter="release")])
    shopping = {"series": series, "release": release, **_reckon(projects, query["kits"])}
    if _wants_csv(query["format"]):
        answer = Response(write_csv(shopping), mimetype=MEDIA_TYPE)
        file_name = f"shopping-{slug(name)}-{query['kits']}.csv"
        # set so, a name in another script is encoded (RFC 8187)
        answer.headers.set("Content-Disposition", "attachment", filename=file_name)
    else:
        answer = Response(json.dumps(shopping, ensure_ascii=False) + "\n", mimetype=JSON)
    answer.vary.add("Accept")
    answer.set_etag(hashlib.sha256(answer.get_data()).hexdigest())
    answer.make_conditional(request)
    return answer


def _wants_csv(form: str | None) -> bool:
    """What the query says, else what is liked better; JSON where that says nothing."""
    if form is not None:
        return form == "csv"
    return request.accept_mimetypes.best_match([JSON, MEDIA_TYPE], default=JSON) == MEDIA_TYPE


def _reckon(projects: Sequence[ShoppingProject], kits: int) -> dict[str, Any]:
    try:
        return parts().shopping.list_for(projects, kits)
    except CannotShop as why:
        found = [{**fault.to_json(), "project": id_} for id_, fault in why.faults]
        raise Problem(422, say_faults(found), name="faults", errors=found) from why
    except Busy as why:
        detail = "Other lists are being reckoned. Ask again in a moment."
        raise Problem(503, detail, headers={"Retry-After": "5"}) from why
    except NotHere as why:
        raise Problem(501, "Nothing is installed here that reckons shopping lists.") from why
