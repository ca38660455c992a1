"""The wizard in a browser: a small server, and a wizard of its own for the page that is open."""
