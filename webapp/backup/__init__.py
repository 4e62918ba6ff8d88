"""The data in one file: taken while a server is at work, checked, and brought back."""
