"""Tests of lines that say where things are."""
