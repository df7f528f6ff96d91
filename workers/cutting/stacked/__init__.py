"""A third cut: strips cut in columns, and lower pieces cut from a column one above the other."""
