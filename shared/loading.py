"""Loading large libraries faster: the garbage collector looks on meanwhile, and never looks at them again."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def loading() -> Iterator[None]:
    """Keep the collector still while modules load, and leave what they made out of all later collections.

    The CAD kernel's bindings make some hundred thousand lasting objects; collecting between them takes a tenth of the
    time of its import, and every later collection would go through them anew.
    """
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()
