//! Laws of the energy budget on random builds, and its edges: a document in, a report out.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "energy/books.rs"]
mod books;
#[path = "energy/builds.rs"]
mod builds;
#[path = "energy/edges.rs"]
mod edges;
#[path = "energy/extremes.rs"]
mod extremes;
#[path = "energy/files.rs"]
mod files;
#[path = "energy/ledger.rs"]
mod ledger;
#[path = "energy/light.rs"]
mod light;
#[path = "energy/sizes.rs"]
mod sizes;
