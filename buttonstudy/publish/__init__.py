"""Reports and other outputs. The only part of the kit that writes files."""
