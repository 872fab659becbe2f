"""What a firm sets once for a region: its climate, prices, carbon and usual figures."""
