"""`python -m service.cli` is `batchbee`."""

from service.cli import main

main(prog_name="batchbee")
