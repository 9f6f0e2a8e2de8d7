"""Pages: routers whose handlers read what was typed, ask a service, and fill a template. Every page works without script."""
