"""Commands: parse words, call one function, show what was found, exit; each imports what it needs when it runs."""
