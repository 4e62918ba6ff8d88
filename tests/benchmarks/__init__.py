"""Timings, printed as ratios measured side by side in one run; never asserted."""
