"""Blade clamp and depth adjuster of a bevel-up plane."""
