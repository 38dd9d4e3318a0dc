//! Solving: values put back into the build just inside and just outside, requests that are refused.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

#[path = "solve/asked.rs"]
mod asked;
#[path = "solve/edges.rs"]
mod edges;
#[path = "solve/faults.rs"]
mod faults;
#[path = "solve/lines.rs"]
mod lines;
#[path = "solve/put_back.rs"]
mod put_back;
