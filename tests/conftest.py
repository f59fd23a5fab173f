"""Tests that share something expensive run in one process, so that it is made once."""

from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SHARED = "built"  # the fixture of a whole build; the files that ask for it go to one process together


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """Hand out whole files, in the order in which they are collected: those that build planes come first."""
    from xdist.scheduler import LoadScopeScheduling

    class ByFile(LoadScopeScheduling):
        def _split_scope(self, nodeid):
            file = nodeid.split("::")[0]
            return SHARED if f"({SHARED}" in (ROOT / file).read_text(encoding="utf-8") else file

    return ByFile(config, log)
