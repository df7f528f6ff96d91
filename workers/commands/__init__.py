"""Commands of the command line that compute: they live with the workers and are found by their entry point."""
