//! Energy budget: sun, array, battery and loads, hour by hour.

pub mod array;
pub mod arrays;
pub mod bank;
pub mod battery_temperature;
pub mod cell_temperature;
pub mod charging;
pub mod charging_line;
pub mod conditions;
pub mod consumers;
pub mod cycles;
pub mod demand;
pub mod harvest;
pub mod inverter_curve;
pub mod kinetic_battery;
pub mod lead_acid_charge;
pub mod ledger;
pub mod module_curve;
pub mod module_power;
pub mod peukert;
pub mod refrigerator;
pub mod shade;
pub mod terminal_voltage;
pub mod worksheet;
