//! The whole build: its questions asked one by one with numbers passed over by hand, energy that is conserved across them,
//! and its edges.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "evaluate/builds.rs"]
mod builds;
#[path = "evaluate/by_hand.rs"]
mod by_hand;
#[path = "evaluate/edges.rs"]
mod edges;
#[path = "evaluate/energy.rs"]
mod energy;
