//! Whether the service runs, and whether it takes requests.

use std::sync::atomic::{AtomicU8, Ordering};

use actix_web::HttpResponse;
use actix_web::http::header::{self, HeaderValue};
use serde_json::json;

use crate::problem::Problem;
use crate::question::JSON;

/// What the service is doing.
#[derive(Debug, Default)]
pub struct Health(AtomicU8);

const STARTING: u8 = 0;
const READY: u8 = 1;
const STOPPING: u8 = 2;

impl Health {
    /// It takes requests from now on, unless it is stopping already.
    pub fn ready(&self) {
        _ = self.0.compare_exchange(STARTING, READY, Ordering::Relaxed, Ordering::Relaxed);
    }

    /// It is to get no more requests from now on.
    pub fn stopping(&self) {
        self.0.store(STOPPING, Ordering::Relaxed);
    }

    /// Is it shutting down?
    pub fn is_stopping(&self) -> bool {
        self.0.load(Ordering::Relaxed) == STOPPING
    }

    /// It takes requests, or why it does not.
    pub(crate) fn readiness(&self) -> Result<HttpResponse, Problem> {
        match self.0.load(Ordering::Relaxed) {
            READY => Ok(pass()),
            STARTING => Err(Problem::reduced_capacity("The service is starting.")),
            _ => Err(Problem::reduced_capacity("The service is shutting down.")),
        }
    }
}

/// All is well.
pub(crate) fn pass() -> HttpResponse {
    let mut response = HttpResponse::Ok();
    response.insert_header((header::CONTENT_TYPE, JSON));
    response.insert_header((header::CACHE_CONTROL, HeaderValue::from_static("no-store")));
    response.body(json!({"status": "pass", "version": env!("CARGO_PKG_VERSION")}).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_ready_only_between_start_and_shutdown() {
        let health = Health::default();
        let is_ready = || health.readiness().is_ok();
        assert!(!is_ready());
        health.ready();
        assert!(is_ready());
        health.stopping();
        health.ready();
        assert!(!is_ready());
        assert!(health.is_stopping());
    }
}
