"""Quintet's web server: pages, the live board, storage and sharing. It decides nothing about basketball.

Nothing is imported here: :mod:`webapp.bootstrap` runs before the packages this server needs are installed.

What the first page does not need and takes long to import is imported in the functions that need it: what
draws papers, the checker, migrations, certificates, reading a team's file.
``tests/webapp/serving/test_start.py`` lists what has to stay away, ``tests/benchmarks/start.py`` says what a
start takes.
"""
