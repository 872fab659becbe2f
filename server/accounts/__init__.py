"""Who someone is: passwords, tokens, roles. Neither pages nor rows."""
