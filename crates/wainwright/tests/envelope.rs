//! The envelope against vectors worked out apart from this code, in another language: every row of `envelope/*.csv`, to the
//! last digit it shows. Each says where its figures come from. Beside them, laws of the faces.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "envelope/faces.rs"]
mod faces;
#[path = "envelope/films.rs"]
mod films;
#[path = "envelope/framing.rs"]
mod framing;
#[path = "envelope/glazing.rs"]
mod glazing;
#[path = "envelope/layers.rs"]
mod layers;
#[path = "sky_synthetic/rows.rs"]
mod rows;
#[path = "envelope/sol_air.rs"]
mod sol_air;
