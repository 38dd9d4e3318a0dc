//! Laws that every build must keep, held against random builds: a document in, a report out.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "laws/builds.rs"]
mod builds;
#[path = "laws/circuits.rs"]
mod circuits;
#[path = "laws/findings.rs"]
mod findings;
#[path = "laws/oracle.rs"]
mod oracle;
#[path = "laws/places.rs"]
mod places;
#[path = "laws/reports.rs"]
mod reports;
#[path = "laws/statics.rs"]
mod statics;
#[path = "laws/wired_builds.rs"]
mod wired_builds;
#[path = "laws/worst.rs"]
mod worst;
