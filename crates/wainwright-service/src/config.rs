//! Every setting, as a flag and in the environment.

use std::fmt::{self, Display, Formatter};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::str::FromStr;
use std::time::Duration;

use clap::{Args, ValueEnum};

/// Greatest size of a request's body after decompression. Common practice; a build of 10,000 parts has 1 MiB.
const BODY_LIMIT_BYTES: usize = 2 * 1024 * 1024;
/// A build is sent in milliseconds; ten seconds is for the slowest line. Common practice.
const RECEIVE_LIMIT_S: Seconds = Seconds(Duration::from_secs(10));
/// A build is worked out in milliseconds; what takes longer is not worth waiting for. Common practice.
const COMPUTE_LIMIT_S: Seconds = Seconds(Duration::from_secs(10));
/// Length of the window that requests are counted over.
const RATE_WINDOW_S: Seconds = Seconds(Duration::from_secs(60));
/// Load balancers ask for health every second or so.
const DRAIN_S: Seconds = Seconds(Duration::from_secs(2));
/// Longer than receiving and computing may take together.
const SHUTDOWN_S: Seconds = Seconds(Duration::from_secs(25));

/// Start, stop, refusals by a limit and failures of our own; not each request, which would cost more than answering.
const LOG: &str = "info,actix_server=warn,actix_http=off";

/// How the service behaves.
#[derive(Debug, Clone, PartialEq, Args)]
pub struct Config {
    /// Address and port to listen at; port 0 takes any that is free
    #[arg(long, env = "WAINWRIGHT_LISTEN", value_name = "ADDRESS", default_value_t = SocketAddr::from(([127, 0, 0, 1], 8080)))]
    pub listen: SocketAddr,

    /// Threads that answer requests; 0 for one per core
    #[arg(long, env = "WAINWRIGHT_WORKERS", value_name = "COUNT", default_value_t = 0)]
    pub workers: usize,

    /// Greatest size of a request's body, after decompression
    #[arg(long, env = "WAINWRIGHT_BODY_LIMIT_BYTES", value_name = "BYTES", default_value_t = BODY_LIMIT_BYTES)]
    pub body_limit_bytes: usize,

    /// Longest time a request's body may take to arrive
    #[arg(long, env = "WAINWRIGHT_RECEIVE_LIMIT_S", value_name = "SECONDS", default_value_t = RECEIVE_LIMIT_S)]
    pub receive_limit_s: Seconds,

    /// Longest time an answer may take to work out
    #[arg(long, env = "WAINWRIGHT_COMPUTE_LIMIT_S", value_name = "SECONDS", default_value_t = COMPUTE_LIMIT_S)]
    pub compute_limit_s: Seconds,

    /// Requests that one client may make in each window; left out, there is no such limit
    #[arg(long, env = "WAINWRIGHT_RATE_LIMIT", value_name = "COUNT", value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    pub rate_limit: Option<u32>,

    /// Length of the window that requests are counted over
    #[arg(long, env = "WAINWRIGHT_RATE_WINDOW_S", value_name = "SECONDS", default_value_t = RATE_WINDOW_S)]
    pub rate_window_s: Seconds,

    /// Folder of weather files (EPW as *.epw, TMY3 as *.csv) that builds may name; read once, at the start
    #[arg(long, env = "WAINWRIGHT_WEATHER_FOLDER", value_name = "FOLDER")]
    pub weather_folder: Option<PathBuf>,

    /// Folder of catalogues of options (*.json) that requests may name; read and checked once, at the start
    #[arg(long, env = "WAINWRIGHT_CATALOGUE_FOLDER", value_name = "FOLDER")]
    pub catalogue_folder: Option<PathBuf>,

    /// Web origin whose pages may call the service, as scheme and host; may be given more than once
    #[arg(
        long = "cors-origin",
        env = "WAINWRIGHT_CORS_ORIGIN",
        value_name = "ORIGIN",
        value_delimiter = ','
    )]
    pub cors_origins: Vec<String>,

    /// What is logged: error, warn, info, debug or trace, also by part, such as info,wainwright_service=debug
    #[arg(long, env = "WAINWRIGHT_LOG", value_name = "FILTER", default_value = LOG)]
    pub log: String,

    /// How log lines are written
    #[arg(long, env = "WAINWRIGHT_LOG_FORMAT", value_name = "FORMAT", value_enum, default_value_t = LogFormat::Text)]
    pub log_format: LogFormat,

    /// Time between announcing the shutdown to load balancers and taking no more connections
    #[arg(long, env = "WAINWRIGHT_DRAIN_S", value_name = "SECONDS", default_value_t = DRAIN_S)]
    pub drain_s: Seconds,

    /// Longest time that requests under way are given to end after that
    #[arg(long, env = "WAINWRIGHT_SHUTDOWN_S", value_name = "SECONDS", default_value_t = SHUTDOWN_S)]
    pub shutdown_s: Seconds,
}

/// How log lines are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum LogFormat {
    /// For people.
    Text,
    /// One JSON object a line.
    Json,
}

impl Default for Config {
    fn default() -> Self {
        Self {
            listen: SocketAddr::from(([127, 0, 0, 1], 8080)),
            workers: 0,
            body_limit_bytes: BODY_LIMIT_BYTES,
            receive_limit_s: RECEIVE_LIMIT_S,
            compute_limit_s: COMPUTE_LIMIT_S,
            rate_limit: None,
            rate_window_s: RATE_WINDOW_S,
            weather_folder: None,
            catalogue_folder: None,
            cors_origins: Vec::new(),
            log: LOG.to_owned(),
            log_format: LogFormat::Text,
            drain_s: DRAIN_S,
            shutdown_s: SHUTDOWN_S,
        }
    }
}

impl Config {
    /// How many threads answer requests.
    pub fn worker_count(&self) -> usize {
        match self.workers {
            0 => std::thread::available_parallelism().map_or(1, usize::from),
            count => count,
        }
    }
}

/// A time in seconds, fractions allowed, up to an hour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Seconds(pub Duration);

impl Seconds {
    /// The number of seconds.
    pub fn number(self) -> f64 {
        self.0.as_secs_f64()
    }
}

impl FromStr for Seconds {
    type Err = &'static str;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.parse::<f64>() {
            Ok(value) if (0.0..=3600.0).contains(&value) => Ok(Self(Duration::from_secs_f64(value))),
            _ => Err("give seconds from 0 to 3600"),
        }
    }
}

impl Display for Seconds {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        self.number().fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use super::*;

    #[derive(Parser)]
    struct Flags {
        #[command(flatten)]
        config: Config,
    }

    #[test]
    fn no_flags_give_the_defaults() {
        assert_eq!(Flags::parse_from(["wainwright"]).config, Config::default());
    }

    #[test]
    fn times_are_seconds_with_fractions() {
        assert_eq!("0.25".parse(), Ok(Seconds(Duration::from_millis(250))));
        for wrong in ["-1", "nan", "1e9", "soon"] {
            assert!(wrong.parse::<Seconds>().is_err(), "{wrong}");
        }
    }

    #[test]
    fn origins_are_separated_by_commas_or_given_again() {
        let flags = [
            "wainwright",
            "--cors-origin",
            "https://a.example,https://b.example",
            "--cors-origin",
            "https://c.example",
        ];
        assert_eq!(Flags::parse_from(flags).config.cors_origins.len(), 3);
    }
}
