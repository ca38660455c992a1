"""Published figures as data files, each with its source, and their readers, which give SI."""
