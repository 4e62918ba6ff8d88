"""The two ways of serving: gunicorn, and the simple server that comes with the web framework."""
