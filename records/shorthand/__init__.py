"""What people write on an offcut (`B32 rcbo 30ma 2.5/1.5 68m clipped`) becomes values, or is asked.

Nothing here is guessed: a word is read in one way, or asked with its choices, or named.
"""
