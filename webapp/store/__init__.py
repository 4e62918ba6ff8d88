"""Storage on SQLite: tables, the database itself, and the guard that lets one server use it."""
