//! Axle load: what tongue, axles, wheels and tow vehicle carry, and where heavy things may stand.

pub mod equalized;
#[cfg(test)]
mod fixture;
pub mod hitch;
pub mod independent;
mod lift;
pub mod limits;
pub mod line;
pub mod mixed_water;
pub mod numbers;
pub mod placement;
pub mod rig;
pub mod road;
pub mod stability;
pub mod station;
pub mod sway;
pub mod tail_tip;
pub mod tires;
pub mod tow_vehicle;
pub mod toy_bay;
pub mod uncertainty;
pub mod wheels;
pub mod worst;
pub mod yaw;
