"""What the tests do not notice: small faults in the code, one at a time. ``python3 -m tests.mutation``."""
