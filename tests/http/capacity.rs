//! What takes too long, and what goes wrong inside.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::sync::Arc;
use std::thread;
use std::time::{Duration, Instant};

use wainwright_service::question::{Answerer, Asked};
use wainwright_service::{Config, Service};

use crate::client::{get, post};
use crate::running::{Running, config, run_service, run_with, seconds};

/// A service whose one question, `/v1/test`, is answered by this.
fn answering(config: Config, answerer: impl Fn() -> Vec<u8> + Send + Sync + 'static) -> Running {
    let answerer: Arc<Answerer> = Arc::new(move |_| Ok(answerer()));
    run_service(Service::with_questions(
        config,
        vec![Asked { path: "/v1/test".to_owned(), answerer, example: String::new, may_take_long: false }],
    ))
}

/// A body that is not worked on at once.
fn large() -> Vec<u8> {
    [b"{}".to_vec(), vec![b' '; 100_000]].concat()
}

#[test]
fn a_panic_is_a_problem_and_the_service_goes_on() {
    let running = answering(config(), || panic!("a secret of ours"));
    for body in ["{}".into(), large(), "{}".into()] {
        let answer = post("/v1/test", body).to(running.at);
        assert_eq!(answer.problem(500)["type"], "/problems/internal");
        assert!(!answer.text().contains("secret"));
    }
    assert_eq!(get("/health/live").to(running.at).status, 200);
    assert!(running.service.try_out().is_err());
    get("/health/ready").to(running.at).problem(503);
}

#[test]
fn an_answer_that_takes_too_long_is_given_up() {
    let limited = Config { compute_limit_s: seconds(0.1), ..config() };
    let running = answering(limited, || {
        thread::sleep(Duration::from_secs(1));
        b"{}".to_vec()
    });
    let answer = post("/v1/test", large()).to(running.at);
    assert_eq!(
        answer.problem(503)["type"],
        "https://iana.org/assignments/http-problem-types#temporary-reduced-capacity"
    );
    assert_eq!(answer.field("retry-after"), Some("1"));
    let metrics = get("/metrics").to(running.at);
    assert!(
        metrics.text().contains("wainwright_refused_total{limit=\"compute_time\"} 1"),
        "{}",
        metrics.text()
    );
}

#[test]
fn a_large_body_does_not_keep_small_ones_waiting() {
    let running = answering(config(), || {
        thread::sleep(Duration::from_millis(500));
        b"{}".to_vec()
    });
    let at = running.at;
    let large = thread::spawn(move || post("/v1/test", large()).to(at).status);
    thread::sleep(Duration::from_millis(100));
    let begun = Instant::now();
    assert_eq!(get("/health/live").to(at).status, 200);
    assert!(begun.elapsed() < Duration::from_millis(300), "{:?}", begun.elapsed());
    assert_eq!(large.join().unwrap(), 200);
}

#[test]
fn a_body_that_does_not_arrive_is_not_waited_for() {
    let running = run_with(Config { receive_limit_s: seconds(0.2), ..config() });
    let mut stream = TcpStream::connect(running.at).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(10))).unwrap();
    let head = "POST /v1/payload HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{";
    stream.write_all(head.as_bytes()).unwrap();
    let begun = Instant::now();
    let mut answer = [0; 4096];
    let length = stream.read(&mut answer).unwrap();
    let answer = String::from_utf8_lossy(&answer[..length]);
    assert!(answer.starts_with("HTTP/1.1 408"), "{answer}");
    assert!(
        answer.contains("application/problem+json") && answer.contains("/problems/request-timeout"),
        "{answer}"
    );
    assert!(begun.elapsed() < Duration::from_secs(5));
    assert_eq!(get("/health/live").to(running.at).status, 200);
}
