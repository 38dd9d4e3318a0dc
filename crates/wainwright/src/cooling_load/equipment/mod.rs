//! Air conditioners and heaters.
