"""The bench without a screen: a line out, a line in, for screen readers and very poor terminals."""
