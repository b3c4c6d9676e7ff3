"""What cooks say of a released plan while it is worked: ticks, weights, timers."""
