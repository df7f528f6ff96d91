"""Cut list, strips, finishing."""
