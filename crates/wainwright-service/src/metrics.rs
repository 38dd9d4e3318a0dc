//! What is counted, in the text format of Prometheus (version 0.0.4).
//!
//! Everything is a plain counter in a table made at start: counting takes no lock, no memory and no hashing,
//! and no label can come from a caller's text.

use std::fmt::{self, Write};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

use actix_web::http::{Method, StatusCode};

/// Methods that are told apart; any other is the last.
const METHODS: [&str; 5] = ["GET", "HEAD", "POST", "OPTIONS", "other"];
/// Statuses that are told apart; any other is the last, 0.
const STATUSES: [u16; 17] =
    [200, 204, 304, 400, 403, 404, 405, 406, 408, 413, 415, 422, 429, 431, 500, 503, 0];
/// Upper bounds of the duration buckets [µs].
const BUCKETS_US: [u64; 16] = [
    25, 50, 100, 250, 500, 1_000, 2_500, 5_000, 10_000, 25_000, 100_000, 250_000, 1_000_000, 2_500_000,
    5_000_000, 10_000_000,
];
/// What a limit refuses, and the status that says so.
const LIMITS: [(&str, u16); 4] =
    [("receive_time", 408), ("body_bytes", 413), ("rate", 429), ("compute_time", 503)];

/// All counters.
#[derive(Debug)]
pub struct Metrics {
    /// By path; the last is for paths that nothing has.
    paths: Vec<Path>,
}

#[derive(Debug)]
struct Path {
    template: String,
    requests: [[AtomicU64; STATUSES.len()]; METHODS.len()],
    durations: [AtomicU64; BUCKETS_US.len() + 1],
    total_ns: AtomicU64,
}

impl Metrics {
    /// Counters for these paths. One that ends in `{...}` stands for all that begin like it.
    pub fn new(templates: impl Iterator<Item = String>) -> Self {
        let templates = templates.chain(["unknown".to_owned()]);
        Self { paths: templates.map(Path::new).collect() }
    }

    /// Which of the paths this is.
    pub fn index_of(&self, path: &str) -> usize {
        let unknown = self.paths.len() - 1;
        self.paths[..unknown].iter().position(|known| known.is(path)).unwrap_or(unknown)
    }

    /// The template of a path.
    pub fn template(&self, index: usize) -> &str {
        &self.paths[index].template
    }

    /// Counts a request.
    pub fn count(&self, path: usize, method: &Method, status: StatusCode, took: Duration) {
        let path = &self.paths[path];
        let method = METHODS.iter().position(|known| *known == method.as_str()).unwrap_or(METHODS.len() - 1);
        let status =
            STATUSES.iter().position(|known| *known == status.as_u16()).unwrap_or(STATUSES.len() - 1);
        path.requests[method][status].fetch_add(1, Ordering::Relaxed);
        let (ns, us) = (took.as_nanos() as u64, took.as_micros() as u64);
        let bucket = BUCKETS_US.iter().position(|bound| us < *bound).unwrap_or(BUCKETS_US.len());
        path.durations[bucket].fetch_add(1, Ordering::Relaxed);
        path.total_ns.fetch_add(ns, Ordering::Relaxed);
    }

    /// All that was counted, as text.
    pub fn text(&self) -> String {
        let mut out = String::new();
        // Writing to a string cannot fail.
        _ = self.write(&mut out);
        out
    }

    fn write(&self, out: &mut String) -> fmt::Result {
        writeln!(
            out,
            "# HELP wainwright_build_info The version that runs.\n# TYPE wainwright_build_info gauge"
        )?;
        writeln!(out, "wainwright_build_info{{version=\"{}\"}} 1", env!("CARGO_PKG_VERSION"))?;
        writeln!(
            out,
            "# HELP wainwright_requests_total Requests answered.\n# TYPE wainwright_requests_total counter"
        )?;
        for path in &self.paths {
            path.write_requests(out)?;
        }
        writeln!(out, "# HELP wainwright_refused_total Requests refused because a limit was passed.")?;
        writeln!(out, "# TYPE wainwright_refused_total counter")?;
        for (limit, status) in LIMITS {
            // Health is asked for again and again, and answers 503 without refusing anything.
            let limited = self.paths.iter().filter(|path| !path.template.starts_with("/health/"));
            let refused: u64 = limited.map(|path| path.with_status(status)).sum();
            writeln!(out, "wainwright_refused_total{{limit=\"{limit}\"}} {refused}")?;
        }
        writeln!(
            out,
            "# HELP wainwright_request_duration_seconds Time from the header to the answer, body included."
        )?;
        writeln!(out, "# TYPE wainwright_request_duration_seconds histogram")?;
        self.paths.iter().try_for_each(|path| path.write_durations(out))
    }
}

impl Path {
    fn new(template: String) -> Self {
        Self {
            template,
            requests: Default::default(),
            durations: Default::default(),
            total_ns: AtomicU64::new(0),
        }
    }

    fn is(&self, path: &str) -> bool {
        match self.template.split_once('{') {
            None => self.template == path,
            Some((start, _)) => path.starts_with(start),
        }
    }

    fn with_status(&self, status: u16) -> u64 {
        let index = STATUSES.iter().position(|known| *known == status).unwrap_or(STATUSES.len() - 1);
        self.requests.iter().map(|statuses| statuses[index].load(Ordering::Relaxed)).sum()
    }

    fn write_requests(&self, out: &mut String) -> fmt::Result {
        for (method, statuses) in METHODS.iter().zip(&self.requests) {
            for (status, count) in STATUSES.iter().zip(statuses) {
                let count = count.load(Ordering::Relaxed);
                if count > 0 {
                    let status = if *status == 0 { "other".to_owned() } else { status.to_string() };
                    writeln!(
                        out,
                        "wainwright_requests_total{{path=\"{}\",method=\"{method}\",status=\"{status}\"}} {count}",
                        self.template
                    )?;
                }
            }
        }
        Ok(())
    }

    fn write_durations(&self, out: &mut String) -> fmt::Result {
        const NAME: &str = "wainwright_request_duration_seconds";
        let path = &self.template;
        let mut sum = 0;
        for (bound, count) in BUCKETS_US.iter().zip(&self.durations) {
            sum += count.load(Ordering::Relaxed);
            writeln!(out, "{NAME}_bucket{{path=\"{path}\",le=\"{}\"}} {sum}", *bound as f64 / 1e6)?;
        }
        sum += self.durations[BUCKETS_US.len()].load(Ordering::Relaxed);
        writeln!(out, "{NAME}_bucket{{path=\"{path}\",le=\"+Inf\"}} {sum}")?;
        writeln!(
            out,
            "{NAME}_sum{{path=\"{path}\"}} {}",
            self.total_ns.load(Ordering::Relaxed) as f64 / 1e9
        )?;
        writeln!(out, "{NAME}_count{{path=\"{path}\"}} {sum}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn requests_are_counted_by_template_method_and_status() {
        let metrics = Metrics::new(["/v1/payload", "/problems/{slug}"].map(str::to_owned).into_iter());
        for (path, took_us) in
            [("/v1/payload", 30), ("/v1/payload", 20_000_000), ("/problems/x", 1), ("/\"evil", 1)]
        {
            let took = Duration::from_micros(took_us);
            metrics.count(metrics.index_of(path), &Method::POST, StatusCode::OK, took);
        }
        metrics.count(0, &Method::TRACE, StatusCode::IM_A_TEAPOT, Duration::ZERO);
        let text = metrics.text();
        for line in [
            r#"wainwright_requests_total{path="/v1/payload",method="POST",status="200"} 2"#,
            r#"wainwright_requests_total{path="/v1/payload",method="other",status="other"} 1"#,
            r#"wainwright_requests_total{path="/problems/{slug}",method="POST",status="200"} 1"#,
            r#"wainwright_requests_total{path="unknown",method="POST",status="200"} 1"#,
            r#"wainwright_request_duration_seconds_bucket{path="/v1/payload",le="0.000025"} 1"#,
            r#"wainwright_request_duration_seconds_bucket{path="/v1/payload",le="0.00005"} 2"#,
            r#"wainwright_request_duration_seconds_bucket{path="/v1/payload",le="10"} 2"#,
            r#"wainwright_request_duration_seconds_bucket{path="/v1/payload",le="+Inf"} 3"#,
            r#"wainwright_request_duration_seconds_count{path="/v1/payload"} 3"#,
        ] {
            assert!(text.contains(line), "{line}\n{text}");
        }
        assert!(!text.contains("evil"));
    }
}
