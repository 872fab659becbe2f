"""Rows and queries. Nothing here calculates."""
