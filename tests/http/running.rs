//! A service that runs for one test, at a port of its own.

use std::net::SocketAddr;
use std::sync::{Arc, mpsc};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use actix_web::dev::ServerHandle;
use actix_web::rt::System;
use wainwright::question::{ForEachQuestion, Question, for_each_question};
use wainwright_service::config::Seconds;
use wainwright_service::{Config, Service, question, server};

pub const HERON: &str = include_str!("../builds/heron.json");

/// A service that runs until it is dropped.
pub struct Running {
    pub at: SocketAddr,
    pub service: Arc<Service>,
    handle: ServerHandle,
    thread: Option<JoinHandle<()>>,
}

/// Any free port, one worker, and everything else as it is by default.
pub fn config() -> Config {
    Config {
        listen: SocketAddr::from(([127, 0, 0, 1], 0)),
        workers: 1,
        shutdown_s: seconds(1.0),
        ..Config::default()
    }
}

pub fn seconds(number: f64) -> Seconds {
    Seconds(Duration::from_secs_f64(number))
}

/// The service as it is by default.
pub fn run() -> Running {
    run_with(config())
}

pub fn run_with(config: Config) -> Running {
    run_service(Service::new(config).unwrap())
}

pub fn run_service(service: Service) -> Running {
    let service = Arc::new(service);
    let shared = Arc::clone(&service);
    let (sender, receiver) = mpsc::channel();
    let thread = thread::spawn(move || {
        System::new().block_on(async {
            let (server, address) = server::bind(&shared).unwrap();
            sender.send((address, server.handle())).unwrap();
            server.await.unwrap();
        });
    });
    let (at, handle) = receiver.recv().unwrap();
    Running { at, service, handle, thread: Some(thread) }
}

impl Drop for Running {
    fn drop(&mut self) {
        System::new().block_on(self.handle.stop(false));
        _ = self.thread.take().map(JoinHandle::join);
    }
}

/// The paths of all questions.
pub fn questions() -> Vec<String> {
    struct Paths(Vec<String>);
    impl ForEachQuestion for Paths {
        fn question<Q: Question>(&mut self) {
            self.0.push(question::path::<Q>());
        }
    }
    let mut paths = Paths(Vec::new());
    for_each_question(&mut paths);
    paths.0
}
