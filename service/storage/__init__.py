"""Rows and files: the models, the content-addressed store, the only writer of a job's state."""
