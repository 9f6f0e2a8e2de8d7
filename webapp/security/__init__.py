"""What every request passes before a page sees it, and what every answer carries."""
