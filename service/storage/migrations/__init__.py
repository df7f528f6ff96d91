"""The tables' history: one file a change in `versions/`, run by `service.storage.migrate` at every start."""
