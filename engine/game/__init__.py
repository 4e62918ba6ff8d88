"""What can happen: which actions are legal, where they lead, and how it is said."""
