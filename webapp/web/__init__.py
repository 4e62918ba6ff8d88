"""Every route, page and socket, one module a capability."""
