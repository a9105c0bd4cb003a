"""Look for the least change that keeps a limit, computed again."""
