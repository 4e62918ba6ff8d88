"""A board: a change, stored, then told to everybody; ink over it; new teams and boards."""
