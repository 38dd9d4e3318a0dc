//! How many requests a second the service answers, and what its parts cost.
//!
//! Three servers with one worker each, in this process: the whole service; a bare handler, which reads the same
//! body into the same build and answers a report made beforehand, behind the same layers; and that handler with
//! nothing around it. Rounds are interleaved and every ratio is taken within its own round, so that a noisy machine
//! disturbs all three alike. Where the system tells it (Linux), the processor time that the server spends on one
//! request is shown as well: it does not depend on what else runs.
//!
//! `cargo bench -p wainwright-service --bench http`

// It prints what it measures, and stops where it cannot.
#![allow(clippy::expect_used, clippy::print_stdout)]

use std::io::{self, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::sync::{Arc, mpsc};
use std::thread;
use std::time::{Duration, Instant};

use actix_web::dev::ServerHandle;
use actix_web::{App, HttpResponse, HttpServer, rt, web};
use wainwright::Build;
use wainwright::question::{ForEachQuestion, Question, ask, for_each_question};
use wainwright_service::question::{self, Answerer, Asked};
use wainwright_service::{Config, Service, server};

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const BUILD: &str = include_str!("../../../tests/builds/bench.json");
/// Requests under way at a time.
const CONNECTIONS: usize = 16;
/// Many short rounds rather than a few long ones: what else the machine does then falls on all servers alike.
const ROUNDS: usize = 21;
const ROUND: Duration = Duration::from_millis(400);
const WARM_UP: Duration = Duration::from_millis(500);
/// So many requests end a round, however quick they are.
const MOST_REQUESTS: usize = 1_000_000;

/// The least ratio to reach, of a question to the bare handler behind the same layers.
const GOALS: &[(&str, f64)] = &[("payload", 0.85), ("axle_load", 0.6), ("circuit_load", 0.6)];
/// Questions that work through a year are timed as well, and held to a time instead where there is a goal: the median of one
/// request after another [ms].
const TIMES: &[(&str, Option<f64>)] = &[("energy_budget", Some(3.0)), ("cooling_load", None)];
/// So many requests are timed one by one.
const TIMED: usize = 301;
/// The least ratio to reach, of the bare handler behind the layers to the same without them.
const LAYERS_GOAL: f64 = 0.7;

fn main() -> io::Result<()> {
    let whole = serve(Service::new(quiet()).map_err(io::Error::other)?)?;
    let layered = serve(Service::with_questions(quiet(), bare()))?;
    let plain = serve_plain()?;
    println!(
        "{} bytes of build, {CONNECTIONS} connections, {ROUNDS} rounds of {ROUND:?}",
        BUILD.trim().len()
    );
    for asked in question::all(&Arc::default()) {
        compare(&asked.path, [whole.0, layered.0, plain.0])?;
    }
    for (_, handle) in [whole, layered, plain] {
        rt::System::new().block_on(handle.stop(false));
    }
    Ok(())
}

/// Any free port, one worker, and everything else as it is by default.
fn quiet() -> Config {
    Config { listen: SocketAddr::from(([127, 0, 0, 1], 0)), workers: 1, ..Config::default() }
}

/// Handlers that read a build and answer with a report made beforehand.
fn bare() -> Vec<Asked> {
    struct Collect(Vec<Asked>);
    impl ForEachQuestion for Collect {
        fn question<Q: Question>(&mut self) {
            self.0.push(Asked {
                path: question::path::<Q>(),
                answerer: canned::<Q>(),
                example: String::new,
                may_take_long: false,
            });
        }
    }
    let mut collect = Collect(Vec::new());
    for_each_question(&mut collect);
    collect.0
}

fn canned<Q: Question>() -> Arc<Answerer> {
    let build = Build::from_json(BUILD.as_bytes()).expect("the build of this benchmark is in order");
    let report = ask::<Q>(&build).expect("the build of this benchmark has every section");
    Arc::new(move |json| {
        let build = Build::from_json(json)?;
        std::hint::black_box(&build);
        question::to_json(&report)
    })
}

/// Runs the service on a thread of its own.
fn serve(service: Service) -> io::Result<(SocketAddr, ServerHandle)> {
    let service = Arc::new(service);
    started(move || server::bind(&service))
}

/// Runs the bare handlers with nothing around them.
fn serve_plain() -> io::Result<(SocketAddr, ServerHandle)> {
    let routes = bare();
    started(move || {
        let listener = TcpListener::bind(quiet().listen)?;
        let address = listener.local_addr()?;
        let app = move || {
            routes.iter().fold(App::new(), |app, asked| {
                let answerer = Arc::clone(&asked.answerer);
                let handler = move |body: web::Bytes| {
                    let answer = answerer(&body);
                    async move {
                        answer.map(|report| HttpResponse::Ok().content_type("application/json").body(report))
                    }
                };
                app.route(&asked.path, web::post().to(handler))
            })
        };
        Ok((HttpServer::new(app).workers(1).disable_signals().listen(listener)?.run(), address))
    })
}

fn started(
    bind: impl FnOnce() -> io::Result<(actix_web::dev::Server, SocketAddr)> + Send + 'static,
) -> io::Result<(SocketAddr, ServerHandle)> {
    let (sender, receiver) = mpsc::channel();
    thread::spawn(move || {
        rt::System::new().block_on(async {
            match bind() {
                Ok((server, address)) => {
                    _ = sender.send(Ok((address, server.handle())));
                    server.await
                }
                Err(error) => {
                    _ = sender.send(Err(error));
                    Ok(())
                }
            }
        })
    });
    receiver.recv().map_err(io::Error::other)?
}

/// What one round showed.
#[derive(Clone, Copy)]
struct Measured {
    /// Requests a second.
    rate: f64,
    /// Requests for each second of the server's processor time.
    cpu_rate: Option<f64>,
}

/// Measures one question on the three servers.
fn compare(path: &str, servers: [SocketAddr; 3]) -> io::Result<()> {
    let request = format!(
        "POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n{BUILD}",
        BUILD.len()
    );
    for server in servers {
        load(server, &request, WARM_UP)?;
    }
    let mut rounds: [Vec<Measured>; 3] = Default::default();
    for round in 0..ROUNDS {
        // Each server comes first in its turn.
        for turn in 0..servers.len() {
            let which = (round + turn) % servers.len();
            rounds[which].push(load(servers[which], &request, ROUND)?);
        }
    }
    println!("\n{path}");
    for (name, rounds) in
        ["whole service", "bare handler, same layers", "bare handler alone"].iter().zip(&rounds)
    {
        let rate = median(rounds.iter().map(|round| Some(round.rate)));
        let cpu = median(rounds.iter().map(|round| round.cpu_rate));
        println!("  {name:<26} {:>8.0} requests/s {:>8.1} us of processor time each", rate, 1e6 / cpu);
    }
    let name = path.trim_start_matches("/v1/").replace('-', "_");
    let ratio = |what: &str, a: usize, b: usize, goal: Option<f64>| {
        let pairs = || rounds[a].iter().zip(&rounds[b]);
        let by_time = median(pairs().map(|(a, b)| Some(a.rate / b.rate)));
        let by_cpu = median(pairs().map(|(a, b)| Some(a.cpu_rate? / b.cpu_rate?)));
        let verdict =
            goal.map(|goal| format!("; goal {goal} or more: {}", word(by_time >= goal))).unwrap_or_default();
        println!("  {what:<26} {by_time:>8.3} (by processor time {by_cpu:.3}){verdict}");
    };
    let goal = GOALS.iter().find(|(known, _)| *known == name).map(|(_, goal)| *goal);
    ratio("question to bare handler", 0, 1, goal);
    if let Some((_, goal_ms)) = TIMES.iter().find(|(known, _)| *known == name) {
        let median_ms = one_by_one_ms(servers[0], &request)?;
        let verdict = goal_ms
            .map(|goal_ms| format!("; goal {goal_ms} or less: {}", word(median_ms <= goal_ms)))
            .unwrap_or_default();
        println!("  one request after another  {median_ms:>8.3} ms at the median{verdict}");
    }
    ratio("layers to none", 1, 2, Some(LAYERS_GOAL));
    Ok(())
}

fn word(is_reached: bool) -> &'static str {
    if is_reached { "reached" } else { "MISSED" }
}

/// The median of those there are; not a number where there are none.
fn median(values: impl Iterator<Item = Option<f64>>) -> f64 {
    let mut values: Vec<f64> = values.flatten().collect();
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Processor time of all threads but this one, which makes the load [ns].
fn server_cpu_ns() -> Option<u64> {
    let spent = |schedstat: std::path::PathBuf| -> Option<u64> {
        std::fs::read_to_string(schedstat).ok()?.split(' ').next()?.parse().ok()
    };
    let threads = std::fs::read_dir("/proc/self/task").ok()?;
    let all: u64 = threads.filter_map(|thread| spent(thread.ok()?.path().join("schedstat"))).sum();
    Some(all.saturating_sub(spent("/proc/thread-self/schedstat".into())?))
}

/// Requests one server for some time, with as many requests under way as there are connections.
fn load(server: SocketAddr, request: &str, time: Duration) -> io::Result<Measured> {
    let mut connections =
        (0..CONNECTIONS).map(|_| Connection::open(server)).collect::<io::Result<Vec<_>>>()?;
    for connection in &mut connections {
        connection.stream.write_all(request.as_bytes())?;
    }
    let (begun, cpu_before) = (Instant::now(), server_cpu_ns());
    let mut answered = 0;
    while answered < MOST_REQUESTS && begun.elapsed() < time {
        for connection in &mut connections {
            connection.read_answer()?;
            connection.stream.write_all(request.as_bytes())?;
        }
        answered += CONNECTIONS;
    }
    let answered = answered as f64;
    let rate = answered / begun.elapsed().as_secs_f64();
    let cpu_ns = server_cpu_ns().zip(cpu_before).map(|(after, before)| after.saturating_sub(before));
    let cpu_rate = cpu_ns.map(|ns| answered / (ns as f64 / 1e9));
    // What is still under way ends before the next server is measured.
    connections.iter_mut().try_for_each(Connection::read_answer)?;
    Ok(Measured { rate, cpu_rate })
}

/// The median time of requests that wait for one another [ms].
fn one_by_one_ms(server: SocketAddr, request: &str) -> io::Result<f64> {
    let mut connection = Connection::open(server)?;
    let mut times = Vec::with_capacity(TIMED);
    for _ in 0..TIMED {
        let begun = Instant::now();
        connection.stream.write_all(request.as_bytes())?;
        connection.read_answer()?;
        times.push(Some(begun.elapsed().as_secs_f64() * 1e3));
    }
    Ok(median(times.into_iter()))
}

struct Connection {
    stream: TcpStream,
    buffer: Vec<u8>,
}

impl Connection {
    fn open(server: SocketAddr) -> io::Result<Self> {
        let stream = TcpStream::connect(server)?;
        stream.set_nodelay(true)?;
        stream.set_read_timeout(Some(Duration::from_secs(10)))?;
        Ok(Self { stream, buffer: vec![0; 256 * 1024] })
    }

    /// Reads one answer with status 200 to its end.
    fn read_answer(&mut self) -> io::Result<()> {
        let mut length = 0;
        let mut wanted = None;
        while wanted.is_none_or(|wanted| length < wanted) {
            match self.stream.read(&mut self.buffer[length..])? {
                0 => return Err(io::ErrorKind::UnexpectedEof.into()),
                count => length += count,
            }
            if wanted.is_none() {
                wanted = whole_length(&self.buffer[..length]);
            }
        }
        if self.buffer.starts_with(b"HTTP/1.1 200") {
            return Ok(());
        }
        Err(io::Error::other(String::from_utf8_lossy(&self.buffer[..length]).into_owned()))
    }
}

/// Length of an answer with its header, once the header is there.
fn whole_length(answer: &[u8]) -> Option<usize> {
    let header = answer.windows(4).position(|bytes| bytes == b"\r\n\r\n")? + 4;
    let text = std::str::from_utf8(&answer[..header]).ok()?;
    let field = text.lines().find_map(|line| line.strip_prefix("content-length: "))?;
    Some(header + field.parse::<usize>().ok()?)
}
