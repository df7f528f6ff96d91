"""Talking to a running service: one place for the address, the key and what refusals look like."""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import click
import httpx

from service.studio.keys import KEY_FILE

DEFAULT_URL = "http://127.0.0.1:8350"
TIMEOUT_SECONDS = 60.0
TRIES, PAUSE_SECONDS = 3, 0.5


class Refused(click.ClickException):
    """The service refused; its faults are shown one a line."""

    exit_code = 1

    def __init__(self, problem: dict[str, Any]) -> None:
        super().__init__(str(problem.get("detail") or problem.get("title") or "The service refused."))
        self.errors: list[dict[str, str]] = list(problem.get("errors", ()))

    def show(self, file: Any = None) -> None:
        """To the terminal: what was refused, then each fault, where it is and what would be right."""
        click.echo(self.message, err=True)
        for error in self.errors:
            click.echo(f"  {format_fault(error)}", err=True)


class NoService(click.ClickException):
    """The service does not answer, or does not know the key."""

    exit_code = 3


def format_fault(fault: dict[str, str]) -> str:
    """A fault on one line.

    >>> format_fault({"pointer": "/pieces/0", "detail": "too large", "right": "a larger hoop"})
    '/pieces/0: too large; right would be: a larger hoop'
    """
    where = fault.get("pointer") or fault.get("parameter", "")
    of = f"{fault['project']} " if fault.get("project") else ""
    right = f"; right would be: {fault['right']}" if fault.get("right") else ""
    return f"{of}{where}{': ' if where or of else ''}{fault.get('detail', '')}{right}"


class Client:
    """The API of one service, with one key or none."""

    def __init__(self, url: str, key: str = "", transport: httpx.BaseTransport | None = None) -> None:
        headers = {"Authorization": f"Bearer {key}"} if key else {}
        self.url = url.rstrip("/")
        self._http = httpx.Client(
            base_url=self.url, headers=headers, timeout=TIMEOUT_SECONDS, transport=transport
        )

    def call(self, method: str, path: str, *, expect_less: bool = False, **more: Any) -> httpx.Response:
        """An answer below 400, or `Refused` or `NoService`. Busy services are asked again a few times.

        With `expect_less` a 404 or 409 is answered too, for the caller to look at.
        """
        where = path if path.startswith(("/healthz", "/readyz", "/api/")) else f"/api/v1{path}"
        answer = self._ask(method, where, more)
        if answer.status_code < 400 or (expect_less and answer.status_code in (404, 409)):
            return answer
        problem = _problem_of(answer)
        if answer.status_code == 401:
            raise NoService(
                f"{problem.get('detail', 'The key is not known.')} (BATCHBEE_TOKEN, or --data DIR)"
            )
        raise Refused(problem)

    def get(self, path: str, **more: Any) -> Any:
        """The JSON at a path."""
        return self.call("GET", path, **more).json()

    def post(self, path: str, **more: Any) -> Any:
        """The JSON answered to a POST."""
        return self.call("POST", path, **more).json()

    def download(self, path: str) -> httpx.Response:
        """A file, whole."""
        return self.call("GET", path)

    def close(self) -> None:
        """Close the connections."""
        self._http.close()

    def _ask(self, method: str, where: str, more: dict[str, Any]) -> httpx.Response:
        for left in range(TRIES - 1, -1, -1):
            try:
                answer = self._http.request(method, where, **more)
            except httpx.ConnectError as why:
                raise NoService(f"Nothing answers at {self.url}. Start it with `batchbee serve`.") from why
            except httpx.HTTPError as why:
                raise NoService(f"{self.url} does not answer as it should: {why}") from why
            if answer.status_code != 503 or not left:
                return answer
            time.sleep(PAUSE_SECONDS)
        raise AssertionError("unreachable: the last try returns")


def _problem_of(answer: httpx.Response) -> dict[str, Any]:
    try:
        problem = answer.json()
    except ValueError:
        problem = None
    if isinstance(problem, dict):
        return problem
    return {"detail": f"The service answered {answer.status_code} {answer.reason_phrase}."}


def find_key(token: str, data: Path) -> str:
    """The key to use: the one given, else the maker's of a service on this machine, else none."""
    if token:
        return token.strip()
    try:
        return (data / KEY_FILE).read_text(encoding="ascii").strip()
    except (OSError, ValueError):
        return ""


def with_client(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command a `client`, and the options it is made from."""

    @click.option(
        "--url", envvar="BATCHBEE_URL", default=DEFAULT_URL, show_default=True, help="Where the service is."
    )
    @click.option(
        "--token", "key", envvar="BATCHBEE_TOKEN", default="", help="A key (better in BATCHBEE_TOKEN)."
    )
    @click.option(
        "--data",
        envvar="BATCHBEE_DATA",
        type=click.Path(path_type=Path),
        default=Path("data"),
        show_default=True,
        help=f"The service's data folder; without a key, its {KEY_FILE} is used.",
    )
    @wraps(command)
    def run(url: str, key: str, data: Path, **more: Any) -> Any:
        client = Client(url, find_key(key, data))
        try:
            return command(client=client, **more)
        finally:
            client.close()

    return run
