//! Tables of published standards: what a conductor may carry, what a device is rated for, what a supply may feed; how walls
//! and windows let heat through, and what heat people give off.
//!
//! Every table is a data file under `data/`, whose first line says where it is from and how well it could be
//! confirmed: `seen` was read, mostly in retellings of the standard, `memory` was recalled and not checked against the
//! text. National Electrical Code (NEC) is NFPA 70; figures are those of the editions 2011 and later unless a
//! table says otherwise.

pub mod ampacity;
pub mod building_material;
pub mod cord;
pub mod dc_ampacity;
pub mod finish;
pub mod framing;
pub mod fuse;
pub mod glazing;
pub mod low_voltage;
pub mod motor;
pub mod occupant;
pub mod overcurrent;
pub mod photovoltaic;
pub mod receptacle;
pub mod resistance;
pub mod room_air_conditioner;
pub mod size;
pub mod still_air;
pub mod supply;
pub(crate) mod table;
