"""The cut list: pieces, spools, sleeves, tubes and the bill of materials."""
