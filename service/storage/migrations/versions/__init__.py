"""One file a change, named by number and content."""
