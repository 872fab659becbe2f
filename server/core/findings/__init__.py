"""Findings: what could go wrong in a house and under a strategy, one file for each sort."""
