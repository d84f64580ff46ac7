"""What people see. It holds no arithmetic of the model."""
