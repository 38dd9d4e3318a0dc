//! Black-box tests: the service as a caller meets it, over real HTTP, and the program as a shell meets it.

// A test that cannot go on fails.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bodies;
mod capacity;
mod circuits;
mod client;
mod compare;
mod contract;
mod cooling;
mod cors;
mod energy;
mod health;
mod methods;
mod metrics;
mod negotiation;
mod options;
mod pages;
mod papers;
mod problems;
mod program;
mod rate;
mod running;
mod solve;
mod weather;
