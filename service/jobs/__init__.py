"""Use cases: which jobs a project needs, submitting, following, cancelling, retrying."""
