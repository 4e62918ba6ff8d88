"""Where a board stands: its setup, the chain played so far, its history and its figures."""
