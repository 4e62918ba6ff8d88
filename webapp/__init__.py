"""Quintet's web server: pages, the live board, storage and sharing. It decides nothing about basketball.

Nothing is imported here: :mod:`webapp.bootstrap` runs before the packages this server needs are installed.
"""
