"""The REST API, one file a resource."""
