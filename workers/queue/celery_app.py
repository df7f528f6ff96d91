"""Celery, in two profiles. The broker carries wake-ups alone; what is to be done stands in the database.

Embedded: the broker lives in the memory of the one worker, whose own thread dispatches. Shared: Redis.
"""

from __future__ import annotations

from typing import Any

from celery import Celery

from service.jobs.dispatch import QUEUE
from service.settings import EMBEDDED_BROKER, Settings
from workers.queue.limits import HARD_LIMIT_SECONDS, SOFT_LIMIT_SECONDS

COMMON: dict[str, Any] = {
    # The database is the record: no result store, no events, nothing but an id in a message.
    "task_ignore_result": True,
    "result_backend": None,
    "worker_send_task_events": False,
    "task_serializer": "json",
    "accept_content": ["json"],
    "task_default_queue": QUEUE,
    # A message that comes twice finds its job taken, so late acknowledging is safe; tries are counted in
    # the database, so a job that kills its worker does not come back for ever.
    "task_acks_late": True,
    "task_reject_on_worker_lost": True,
    "task_acks_on_failure_or_timeout": True,
    "worker_prefetch_multiplier": 1,
    "worker_cancel_long_running_tasks_on_connection_loss": False,
    "task_soft_time_limit": SOFT_LIMIT_SECONDS,
    "task_time_limit": HARD_LIMIT_SECONDS,
    # A page printer grows a little with every document.
    "worker_max_tasks_per_child": 200,
    "worker_max_memory_per_child": 400_000,
    "broker_connection_retry_on_startup": True,
    "broker_connection_max_retries": None,
}

EMBEDDED: dict[str, Any] = {"broker_transport_options": {"polling_interval": 0.05}}

SHARED: dict[str, Any] = {
    "broker_transport_options": {
        # Far above the time limit, or Redis would hand out a running job again; the lease is quicker.
        "visibility_timeout": 3600,
        "unacked_restore_interval": 2,
        "unacked_restore_throttle": 1,
        # A half-open connection would otherwise leave the worker idle for good.
        "socket_keepalive": True,
        "socket_timeout": 10,
        "socket_connect_timeout": 5,
        "health_check_interval": 10,
    }
}


def make_app(settings: Settings) -> Celery:
    """The Celery application for these settings. Nothing is connected."""
    app = Celery("batchbee", broker=settings.broker_url or EMBEDDED_BROKER)
    app.conf.update(COMMON)
    app.conf.update(EMBEDDED if settings.embedded else SHARED)
    app.conf.update(imports=("workers.queue.tasks", "workers.queue.signals"))
    return app


settings = Settings.from_env()
app = make_app(settings)
