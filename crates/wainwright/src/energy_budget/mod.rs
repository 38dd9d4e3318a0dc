//! Energy budget: sun, array, battery and loads, hour by hour.

pub mod cell_temperature;
pub mod cycles;
pub mod kinetic_battery;
pub mod module_power;
pub mod peukert;
pub mod terminal_voltage;
