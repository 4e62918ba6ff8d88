"""Packs: what a coach's device plays from without a network, made beside the server and kept as files."""
