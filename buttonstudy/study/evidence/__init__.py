"""What counts as evidence: sets of buttons, their dates, and what was examined of them."""
