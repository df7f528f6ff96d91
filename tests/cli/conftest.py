"""The command line against a real server: the studio of the API tests, served on a free port."""

import json
import threading
from dataclasses import dataclass
from typing import Any

import pytest
from click.testing import CliRunner, Result
from werkzeug.serving import make_server

from service.cli import main
from tests.api.conftest import DOCUMENT, LEAF, Studio, make_studio


@dataclass
class Terminal:
    """Runs commands as one person with one key."""

    studio: Studio
    url: str
    folder: Any

    def run(self, *words: Any, key: str | None = None) -> Result:
        """Run a command; without `key` as the maker."""
        key = self.studio.maker.key if key is None else key
        environ = {
            "BATCHBEE_URL": self.url,
            "BATCHBEE_TOKEN": key,
            "BATCHBEE_DATA": str(self.folder / "none"),
        }
        return CliRunner().invoke(main, [str(word) for word in words], env=environ)

    def write(self, name: str = "project.json", **changes: Any) -> Any:
        """Write a project file."""
        file = self.folder / name
        file.write_text(json.dumps({**DOCUMENT, **changes}))
        return file


@pytest.fixture
def terminal(settings, clock, tmp_path):
    studio = make_studio(settings, clock)
    server = make_server("127.0.0.1", 0, studio.app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    (tmp_path / "leaf.svg").write_bytes(LEAF)
    yield Terminal(studio, f"http://127.0.0.1:{server.server_port}", tmp_path)
    server.shutdown()
    thread.join()
    server.server_close()
    studio.wiring.database.close_idle()
