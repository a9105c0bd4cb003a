"""From nine answers to a definition that can be checked and printed: what is asked, what follows, and its text."""
