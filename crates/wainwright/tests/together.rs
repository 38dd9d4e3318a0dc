//! What may run together, and the risk of passing a limit, against every set of a few loads.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "together/demand.rs"]
mod demand;
#[path = "together/loads.rs"]
mod loads;
#[path = "together/sets.rs"]
mod sets;
