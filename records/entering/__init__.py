"""Entering the design: what is asked for, what an entry means and brings with it, what follows."""
