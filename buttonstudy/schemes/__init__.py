"""Knowledge kept as tables with their sources, and the loader that reads them."""
