"""The body of a low-angle plane: the bed is cut in the body itself."""
