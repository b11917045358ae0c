"""What could be otherwise: ways out of what fails, headroom, sweeps. Everything that is proposed is an edit."""
