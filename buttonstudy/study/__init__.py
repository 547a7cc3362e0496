"""The statistics. DataFrame in, DataFrame out; nothing here reads files or draws."""
