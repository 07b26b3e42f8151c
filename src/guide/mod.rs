//! The visit: phases, steps, hazards, gates, what to look at next.
