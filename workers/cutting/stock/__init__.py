"""Cut from what is there: leftovers at home, and pieces sold cut already."""
