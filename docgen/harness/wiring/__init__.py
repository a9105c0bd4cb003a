"""Take routes and give wires, marks, contacts and lengths: circuits, joints and equipment as built."""
