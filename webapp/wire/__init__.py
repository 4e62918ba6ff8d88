"""What crosses the wire: every shape that comes in, engine values as plain objects, and every refusal."""
