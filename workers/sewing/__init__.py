"""Order of work, pressing, expected sizes, step lists."""
