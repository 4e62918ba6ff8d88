"""Moving house: a team's everything as one document, and bringing one in without losing what is here."""
