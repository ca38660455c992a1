"""What pictures of the figures are made of, as plain numbers; how they are drawn is not said."""
