"""The plane book: one self-contained HTML page with a 3-D view. Knows no part."""
