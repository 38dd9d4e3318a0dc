//! Air that comes in: through gaps, fans and open windows, and what people need of it.

pub mod fan;
pub mod fresh_air;
pub mod infiltration;
pub mod moisture;
pub mod open_window;
