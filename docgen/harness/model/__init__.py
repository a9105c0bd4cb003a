"""What a harness is made of, as values: parts, circuits, joints, equipment, rules, results."""
