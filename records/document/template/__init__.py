"""The template that comes with Farboard, built by python-docx."""
