"""Quintet's engine: a motion offence by rule, as values and pure functions.

Standard library only. Nothing in here knows of the web, of a database or of the time of day.
"""
