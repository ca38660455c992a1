"""Tests of where cables and boxes are."""
