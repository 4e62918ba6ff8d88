"""HTTPS: certificates given or made here, the second door, and what the application is told of it."""
