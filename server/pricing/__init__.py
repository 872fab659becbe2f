"""What a strategy takes: the work, its price, its embodied carbon, and the room it takes up."""
