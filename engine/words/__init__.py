"""Everything a person can read, by key: the tables of engine/locales, and the language being spoken."""
