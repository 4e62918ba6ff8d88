"""A team's own: its squad, its rule sets and formations, and checks of them."""
