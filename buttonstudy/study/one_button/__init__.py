"""One button beside the survey: how common its traits are, and what it most resembles."""
