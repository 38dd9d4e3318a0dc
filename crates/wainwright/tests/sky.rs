//! The sky against sources outside this project: a published example, and a table worked out by another program.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "sky/almanac.rs"]
mod almanac;
#[path = "sky/sun.rs"]
mod sun;
#[path = "sky/sunrise.rs"]
mod sunrise;

/// Rows of numbers of a table with a line of headings; cells that are not numbers are not a number.
fn rows(csv: &str) -> impl Iterator<Item = Vec<f64>> {
    csv.lines().skip(1).map(|line| line.split(',').map(|cell| cell.parse().unwrap_or(f64::NAN)).collect())
}
