"""Signing in, with a password or a link, and signing out."""
