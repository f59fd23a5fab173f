"""The drawing sheets of a plane: a module a part; `registry` lists them, `common` is what all share."""
