"""Live screens: their sockets, the frames that go to them, and who is on which board."""
