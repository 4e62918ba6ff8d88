"""The checker: every position a rule set can lead to, looked at before anybody plays it."""

from engine.checker.check import check
from engine.checker.findings import Finding, Report

__all__ = ["Finding", "Report", "check"]
