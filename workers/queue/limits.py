"""How long one job may take; far more than the slowest job known, far less than anybody waits."""

SOFT_LIMIT_SECONDS = 120
"""After this the job is told to stop, and fails."""
HARD_LIMIT_SECONDS = 150
"""After this its process is killed."""
