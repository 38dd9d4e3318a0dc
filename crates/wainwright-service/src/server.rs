//! The service bound to an address.

use std::io;
use std::net::{SocketAddr, TcpListener};
use std::sync::Arc;
use std::time::Duration;

use actix_web::HttpServer;
use actix_web::dev::Server;

use crate::app::{Service, app};

/// The header fields of a request must be there in this time, and an idle connection is kept as long.
const HEADER_LIMIT: Duration = Duration::from_secs(10);
/// Threads for large bodies, beside each thread that answers requests. More would only take turns on the cores.
const LARGE_BODY_THREADS: usize = 2;

/// Binds the service. It runs when the server is awaited; it stops through the server's handle.
///
/// # Errors
///
/// The address is taken, or cannot be bound.
pub fn bind(service: &Arc<Service>) -> io::Result<(Server, SocketAddr)> {
    let listener = TcpListener::bind(service.config.listen)?;
    let address = listener.local_addr()?;
    let shared = Arc::clone(service);
    let server = HttpServer::new(move || app(&shared))
        .workers(service.config.worker_count())
        .worker_max_blocking_threads(LARGE_BODY_THREADS)
        .client_request_timeout(HEADER_LIMIT)
        .keep_alive(HEADER_LIMIT)
        .shutdown_timeout(service.config.shutdown_s.number().ceil() as u64)
        .disable_signals()
        .listen(listener)?
        .run();
    Ok((server, address))
}
