"""Files to records: raw cells with their place, headings recognised, one row per button."""
