"""Devices on bad lines, told by a seed what to do, and held to what must never be otherwise."""
