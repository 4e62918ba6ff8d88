"""What a team has agreed: actions, and for each what everybody does; as read, checked and compared."""
