"""Reading and writing of files: house files, comparison files, seed data, tables."""
