"""One use case a file, shared by pages and commands."""
