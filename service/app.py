"""The web application: the one place where its parts are wired together."""

from __future__ import annotations

from flask import Flask
from flask.json.provider import DefaultJSONProvider
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import HTTPException

from service.api import errors
from service.api.document import BeeApi
from service.api.headers import add_headers
from service.api.outline_forms import FORM_ROOM_BYTES
from service.api.problems import Problem
from service.api.rooms import ROOMS
from service.api.wiring import NAME, Turnstile, Wiring
from service.craft.faults import DocumentFaults
from service.jobs.dispatch import Dispatch
from service.settings import Settings
from service.storage.files import FileStore
from service.storage.migrate import migrate
from service.storage.recovery import NotFound
from service.storage.session import Database
from service.storage.times import Clock, utc_now
from service.studio.shopping import PlanShopping, ShoppingDesk, plan_by_entry_point
from service.studio.tracing import TracePicture, TracingDesk, trace_apart


class PlainJson(DefaultJSONProvider):
    """JSON as it was put together: fields in their order, letters of every script as themselves."""

    sort_keys = False
    ensure_ascii = False


def create_app(
    settings: Settings | None = None,
    *,
    clock: Clock = utc_now,
    dispatch: Dispatch | None = None,
    plan_shopping: PlanShopping = plan_by_entry_point,
    trace_picture: TracePicture = trace_apart,
) -> Flask:
    """The application for these settings, or those of the environment; its database is brought up to date.

    `dispatch`, where it is given, wakes a worker for new jobs at once; without it the dispatcher finds
    them by itself a moment later. `plan_shopping` reckons shopping lists, `trace_picture` traces pictures.
    """
    settings = settings or Settings.from_env()
    app = Flask("batchbee", static_folder=None)
    app.json = PlainJson(app)
    app.config["MAX_CONTENT_LENGTH"] = settings.upload_limit_bytes + FORM_ROOM_BYTES
    app.config["MAX_FORM_PARTS"] = 20
    database = Database(settings.database_url)
    app.extensions[NAME] = Wiring(
        settings=settings,
        database=database,
        store=FileStore(settings.data),
        clock=clock,
        dispatch=dispatch,
        # A stream keeps one thread of the web side busy: half of them stay free for everybody else.
        streams=Turnstile(max(1, settings.web_threads // 2)),
        shopping=ShoppingDesk(plan_shopping),
        tracing=TracingDesk(trace_picture),
    )
    _add_routes(app)
    migrate(database)
    # The server may fork after this; connections are never carried across.
    database.close_idle()
    return app


def _add_routes(app: Flask) -> None:
    api = BeeApi(app)
    for room, prefix in ROOMS:
        api.register_blueprint(room, url_prefix=prefix)
    app.register_error_handler(HTTPException, errors.answer_http)
    app.register_error_handler(Problem, errors.answer_problem_raised)
    app.register_error_handler(DocumentFaults, errors.answer_faults)
    app.register_error_handler(NotFound, errors.answer_not_found)
    app.register_error_handler(OperationalError, errors.answer_busy)
    app.register_error_handler(Exception, errors.answer_unexpected)
    app.after_request(add_headers)
