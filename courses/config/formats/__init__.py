"""How days and hours are written, where the language leaves it open."""
