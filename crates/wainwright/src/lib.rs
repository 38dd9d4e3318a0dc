//! The arithmetic of turning an enclosed cargo trailer into a camper that also hauls a toy.
//!
//! Pure calculation: no files, no network, no clock.

pub mod air;
pub mod axle_load;
pub mod batch;
pub mod bounds;
pub mod build;
pub mod circuit_load;
pub mod compare;
pub mod cooling_load;
pub mod document;
pub mod drawn_power;
pub mod energy_budget;
pub mod equalized;
pub mod evaluate;
pub mod figures;
mod inner_build;
pub mod input;
pub mod loading;
pub mod masses;
pub mod memo;
pub mod named_files;
pub mod named_question;
pub mod operation;
pub mod options;
pub mod papers;
pub mod payload;
pub mod question;
pub mod report;
pub mod search;
pub mod site_weather;
pub mod sky;
pub mod solve;
pub mod standards;
mod text;
pub mod units;

pub use build::Build;
pub use document::{Fault, FaultCode, Faults, Refusal};
pub use named_files::NamedFiles;
