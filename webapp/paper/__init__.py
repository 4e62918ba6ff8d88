"""Paper and files: chains as printed sheets, call sheets, pictures and moving pictures."""
