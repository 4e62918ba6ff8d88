"""The floor: courts and their lines, spots and formations, ways over it, and who stands where."""
