"""The plays a team keeps: chains by name, with their branches."""
