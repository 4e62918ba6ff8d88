"""What everything stands on: settings, limits, secrets, addresses, and values read strictly."""
