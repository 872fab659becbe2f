"""One's own account."""
