//! Laws of the cooling load on random boxes, its edges, and an invented box worked out apart from this code.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "cooling/books.rs"]
mod books;
#[path = "cooling/builds.rs"]
mod builds;
#[path = "cooling/changes.rs"]
mod changes;
#[path = "cooling/design_days.rs"]
mod design_days;
#[path = "cooling/edges.rs"]
mod edges;
#[path = "cooling/extremes.rs"]
mod extremes;
#[path = "cooling/heading.rs"]
mod heading;
#[path = "cooling/insulation.rs"]
mod insulation;
#[path = "cooling/more_heat.rs"]
mod more_heat;
#[path = "cooling/night.rs"]
mod night;
#[path = "battery/rows.rs"]
mod rows;
#[path = "cooling/sizes.rs"]
mod sizes;
#[path = "cooling/still.rs"]
mod still;
#[path = "cooling/trailer.rs"]
mod trailer;
#[path = "cooling/trailer_document.rs"]
mod trailer_document;
#[path = "cooling/trailer_vectors.rs"]
mod trailer_vectors;
