"""Cut plans: which blanks come out of which board, by saw cuts edge to edge or by interlocked outlines."""
