"""Runs the supervisor with the real worker and a small web server in place of the application.

`python -m tests.queue.supervised [failing | real]`; settings come from the environment.
"""

import sys

from service.settings import Settings
from service.supervise import Supervisor, worker_command


def main() -> int:
    settings = Settings.from_env()
    web = [sys.executable, "-m", "http.server", "--bind", settings.host, str(settings.port)]
    if "failing" in sys.argv:
        web = [sys.executable, "-c", "raise SystemExit('no bed for leeks')"]
    parts = None if "real" in sys.argv else {"web side": web, "worker": worker_command(settings)}
    return Supervisor(settings, lambda words: print(words, flush=True), parts).run(
        lambda: print("READY", flush=True)
    )


if __name__ == "__main__":
    sys.exit(main())
