"""What to buy for one project, a month or a whole series, in any number of kits, planned apart and together."""
