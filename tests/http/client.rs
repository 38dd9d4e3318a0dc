//! A client that sends exactly what it is told to, and reads one answer.

use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::time::Duration;

use serde_json::Value;
use wainwright_service::problem;

/// Words that no caller should ever read.
const INNER_WORDS: &[&str] =
    &["serde", "actix", "panick", ".rs", "f64", "u32", "usize", "thread", "unwrap", "struct"];

/// A request.
pub struct Request {
    head: String,
    body: Vec<u8>,
    has_length: bool,
}

/// A request to a path.
pub fn request(method: &str, path: &str) -> Request {
    let head = format!("{method} {path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n");
    Request { head, body: Vec::new(), has_length: false }
}

pub fn get(path: &str) -> Request {
    request("GET", path)
}

/// A question to a build.
pub fn post(path: &str, build: impl Into<Vec<u8>>) -> Request {
    request("POST", path).field("Content-Type", "application/json").body(build)
}

impl Request {
    pub fn field(mut self, name: &str, value: &str) -> Self {
        self.has_length |= matches!(name, "Content-Length" | "Transfer-Encoding");
        self.head += &format!("{name}: {value}\r\n");
        self
    }

    pub fn body(mut self, body: impl Into<Vec<u8>>) -> Self {
        self.body = body.into();
        self
    }

    /// Sends it and reads the answer.
    pub fn to(&self, server: SocketAddr) -> Answer {
        let mut stream = TcpStream::connect(server).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(30))).unwrap();
        let mut head = self.head.clone();
        if !self.has_length && (!self.body.is_empty() || head.starts_with("POST")) {
            head += &format!("Content-Length: {}\r\n", self.body.len());
        }
        stream.write_all((head + "\r\n").as_bytes()).unwrap();
        // A server that refuses a body early need not read all of it.
        _ = stream.write_all(&self.body);
        let mut bytes = Vec::new();
        let ended = stream.read_to_end(&mut bytes);
        assert!(!bytes.is_empty(), "no answer: {ended:?}");
        Answer::parse(&bytes, self.head.starts_with("HEAD"))
    }
}

/// What came back.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub fields: Vec<(String, String)>,
    pub body: Vec<u8>,
}

impl Answer {
    fn parse(bytes: &[u8], head_only: bool) -> Self {
        let end = bytes.windows(4).position(|four| four == b"\r\n\r\n").expect("a header") + 4;
        let head = std::str::from_utf8(&bytes[..end]).unwrap();
        let mut lines = head.lines();
        let status = lines.next().unwrap().split(' ').nth(1).unwrap().parse().unwrap();
        let fields = lines
            .filter_map(|line| line.split_once(": "))
            .map(|(name, value)| (name.to_ascii_lowercase(), value.to_owned()))
            .collect();
        let answer = Self { status, fields, body: bytes[end..].to_vec() };
        if head_only || status == 304 {
            assert!(answer.body.is_empty(), "an answer without content has a body");
        } else if let Some(length) = answer.field("content-length") {
            assert_eq!(length.parse::<usize>().unwrap(), answer.body.len());
        }
        answer
    }

    pub fn field(&self, name: &str) -> Option<&str> {
        self.fields.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }

    pub fn text(&self) -> &str {
        std::str::from_utf8(&self.body).unwrap()
    }

    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|error| panic!("{error}: {self:?}"))
    }

    /// The body as a problem with this status, after a look at everything that all problems have in common.
    pub fn problem(&self, status: u16) -> Value {
        assert_eq!(self.status, status, "{self:?}");
        assert_eq!(self.field("content-type"), Some("application/problem+json"), "{self:?}");
        assert_eq!(self.field("cache-control"), Some("no-store"));
        assert_eq!(self.field("x-content-type-options"), Some("nosniff"));
        let problem = self.json();
        let kind =
            problem::ALL.iter().find(|kind| problem["type"] == kind.uri).expect("a kind that is listed");
        assert_eq!(problem["status"], status);
        assert_eq!(kind.status, status);
        assert_eq!(problem["title"], kind.title);
        assert_eq!(problem["instance"], format!("/requests/{}", self.field("x-request-id").unwrap()));
        assert!(problem["detail"].as_str().is_some_and(|detail| detail.len() > 10), "{problem}");
        for member in problem.as_object().unwrap().keys() {
            let common = ["type", "title", "status", "detail", "instance"].contains(&member.as_str());
            assert!(common || kind.members.contains(&member.as_str()), "{} has {member}", kind.uri);
        }
        // A request's number is of letters too, and may spell anything.
        let number = self.field("x-request-id").unwrap();
        let text = self.text().replace(number, "").to_lowercase();
        for word in INNER_WORDS {
            assert!(!text.contains(word), "{word} in {text}");
        }
        problem
    }
}
