"""Recipes: from a house as found to the three strategies, and a strategy told in words."""
