"""The low-angle plane: bevel up on a bed cut in the body."""
