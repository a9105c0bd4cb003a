"""Take segments with their routes; return circuits, joints and equipment as built, with marks, contacts and lengths."""
