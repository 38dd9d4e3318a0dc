//! The calculation over HTTP, and the `wainwright` program.
//!
//! - [`app`]: the whole service, assembled; [`server`]: the same, bound to an address
//! - [`question`]: what every question does with a body; nothing here knows a question by name
//! - `layer`: what every request passes through: id, limits, metrics, headers, problem details
//! - [`problem`]: every error there is, and the one function that writes them
//! - [`openapi()`]: the published contract
//! - [`cli`]: the program

mod accept;
pub mod app;
mod body;
pub mod cli;
mod coding;
pub mod config;
mod cors;
mod demo;
pub mod folder;
pub mod health;
mod ids;
mod layer;
mod limits;
mod logs;
pub mod metrics;
pub mod named_files;
mod openapi;
mod pages;
mod papers;
pub mod problem;
pub mod question;
mod rate;
mod rules;
pub mod server;
mod shutdown;
mod table;
pub mod weather_folder;
mod work;

pub use app::Service;
pub use config::Config;
pub use openapi::openapi;
pub use problem::Problem;
