"""The people of a firm, for its lead."""
