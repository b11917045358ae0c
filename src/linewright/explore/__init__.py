"""What could be otherwise: ways out, headroom, sweeps."""
