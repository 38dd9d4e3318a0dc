//! Air that comes in: through gaps, fans and open windows, and what people need of it.
