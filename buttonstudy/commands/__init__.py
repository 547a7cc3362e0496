"""The commands, grouped by what they work on; each takes what was typed and hands it on."""
