"""What costs time. Every room is pure but the queue."""
