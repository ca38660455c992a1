"""Rules for low-resistance readings: paths, joints, rings."""
