"""The ten steps of the walk, one screen each."""
