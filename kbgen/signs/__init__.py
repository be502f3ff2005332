"""Safety signs in the style of ISO 3864, signal words and safety messages."""
