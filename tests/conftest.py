"""Tests that share something expensive run in one process, so that it is made once."""

import pytest


@pytest.hookimpl(tryfirst=True)  # before the groups are read
def pytest_collection_modifyitems(items):
    for item in items:
        shared = "built" if "built" in getattr(item, "fixturenames", ()) else str(item.path)
        item.add_marker(pytest.mark.xdist_group(shared))
