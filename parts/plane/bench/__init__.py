"""The bench plane: bevel down on a frog."""
