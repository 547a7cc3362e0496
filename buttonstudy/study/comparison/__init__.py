"""How traits differ between periods and go together, and when one came in."""
