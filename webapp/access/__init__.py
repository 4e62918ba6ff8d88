"""Who may do what: device keys, links and codes, and how one more device gets in."""
