//! Roof, walls, floor and windows: what they let through.
