"""What share of the examined sets has a trait, by period and overall, and how far that goes."""
