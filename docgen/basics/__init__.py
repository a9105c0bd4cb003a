"""Words that every stage uses: findings and positions, text files, units, tables from standards."""
