//! Shutting down without cutting anyone off.

use std::io;
use std::sync::Arc;

use actix_web::dev::ServerHandle;
use actix_web::rt::time::sleep;
use tracing::info;

use crate::app::Service;

/// Waits for SIGTERM or SIGINT; announces the end, gives load balancers time to see it, then lets requests under
/// way end. A second signal ends the waiting.
///
/// # Errors
///
/// Signals cannot be listened to.
pub async fn on_signal(service: Arc<Service>, server: ServerHandle) -> io::Result<()> {
    let mut signals = Signals::new()?;
    signals.next().await;
    info!(drain_s = service.config.drain_s.number(), "shutting down");
    service.health.stopping();
    let patient = tokio::select! {
        () = sleep(service.config.drain_s.0) => true,
        () = signals.next() => false,
    };
    server.stop(patient).await;
    Ok(())
}

#[cfg(unix)]
struct Signals {
    terminate: tokio::signal::unix::Signal,
    interrupt: tokio::signal::unix::Signal,
}

#[cfg(unix)]
impl Signals {
    fn new() -> io::Result<Self> {
        use tokio::signal::unix::{SignalKind, signal};
        Ok(Self { terminate: signal(SignalKind::terminate())?, interrupt: signal(SignalKind::interrupt())? })
    }

    async fn next(&mut self) {
        tokio::select! {
            _ = self.terminate.recv() => {}
            _ = self.interrupt.recv() => {}
        }
    }
}

#[cfg(not(unix))]
struct Signals;

#[cfg(not(unix))]
impl Signals {
    fn new() -> io::Result<Self> {
        Ok(Self)
    }

    async fn next(&mut self) {
        // Where the signal cannot be heard the process has to be ended from outside.
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    }
}
