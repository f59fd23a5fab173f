"""What a check found: coded, collected, never raised one by one."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any, Literal

Verdict = Literal["passed", "warning", "failed"]


@dataclass(frozen=True, eq=False, repr=False)
class Finding:
    """One design rule applied to one plane."""

    code: str  # part letter and number, such as B03
    part: str
    rule: str  # what is checked, in a few words
    verdict: Verdict
    value: str  # what the plane has, with its unit
    limit: str  # what it should have, with its unit
    why: str
    source: str
    change: str = ""  # which key to change, which way, about how much

    def as_json(self) -> dict[str, Any]:
        """Return a plain dict."""
        return asdict(self)


def judge(passed: bool, warning: bool = False) -> Verdict:
    """Return the verdict: passed wins, then warning, else failed."""
    return "passed" if passed else ("warning" if warning else "failed")
