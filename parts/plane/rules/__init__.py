"""Every design rule that arithmetic can judge, by subject; `parts.plane.checks` collects them."""
