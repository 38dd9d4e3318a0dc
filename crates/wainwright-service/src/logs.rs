//! The log: to standard error, for people or as JSON, one event a line.

use std::io;

use tracing::error;
use tracing_subscriber::filter::Targets;
use tracing_subscriber::layer::SubscriberExt;
use tracing_subscriber::util::SubscriberInitExt;
use tracing_subscriber::{Layer, fmt};

use crate::config::{Config, LogFormat};

/// Starts the log, panics included.
///
/// # Errors
///
/// The filter cannot be read.
pub fn start(config: &Config) -> Result<(), String> {
    let filter: Targets = config
        .log
        .parse()
        .map_err(|_| format!("{} is no log filter; give info, debug or the like", config.log))?;
    let layer = fmt::layer().with_writer(io::stderr);
    let layer = match config.log_format {
        LogFormat::Text => layer.with_ansi(io::IsTerminal::is_terminal(&io::stderr())).boxed(),
        LogFormat::Json => layer.json().flatten_event(true).boxed(),
    };
    // Fails only where a log runs already, and that one serves as well.
    _ = tracing_subscriber::registry().with(layer.with_filter(filter)).try_init();
    std::panic::set_hook(Box::new(|panic| {
        let place = panic.location().map(ToString::to_string).unwrap_or_default();
        error!(place, message = panic.payload_as_str().unwrap_or("no message"), "panicked");
    }));
    Ok(())
}
