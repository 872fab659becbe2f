"""What an owner is sent: a comparison with its prices, frozen."""
