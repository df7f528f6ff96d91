"""Celery, and the run of one job: claim, compute, store, finish."""
