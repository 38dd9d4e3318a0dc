//! Axle load: what tongue, axles, wheels and tow vehicle carry, and where heavy things may stand.

pub mod equalized;
#[cfg(test)]
mod fixture;
pub mod hitch;
pub mod independent;
pub mod mixed_water;
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
pub mod yaw;
