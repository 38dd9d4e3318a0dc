//! Every error there is, as problem details (RFC 9457), and the one function that writes them.

use std::borrow::Cow;
use std::fmt;

use actix_web::body::BoxBody;
use actix_web::dev::ResponseHead;
use actix_web::http::StatusCode;
use actix_web::http::header::{self, HeaderName, HeaderValue};
use actix_web::{HttpResponse, ResponseError};
use serde_json::{Map, Value, json};
use wainwright::{FaultCode, Faults, Refusal};

/// The media type of every error.
pub const MEDIA_TYPE: HeaderValue = HeaderValue::from_static("application/problem+json");
/// A pointer is shown in a sentence if it has at most so many characters: ids of 64 and field names fit.
const LONGEST_POINTER: usize = 200;

/// A kind of problem. Callers branch on its `uri`; neither that nor `title` ever varies.
#[derive(Debug, PartialEq, Eq)]
pub struct Kind {
    /// Its `type`.
    pub uri: &'static str,
    /// Its status.
    pub status: u16,
    /// Its title.
    pub title: &'static str,
    /// When it is raised.
    pub meaning: &'static str,
    /// What the caller can do.
    pub remedy: &'static str,
    /// The members it has beyond those of every problem.
    pub members: &'static [&'static str],
}

macro_rules! kinds {
    ($($name:ident = $uri:literal, $status:literal, $title:literal, $meaning:literal, $remedy:literal, $members:expr;)+) => {
        $(
            #[doc = $meaning]
            pub static $name: Kind = Kind {
                uri: $uri,
                status: $status,
                title: $title,
                meaning: $meaning,
                remedy: $remedy,
                members: &$members,
            };
        )+

        /// Every kind of problem, by status.
        pub static ALL: &[&Kind] = &[$(&$name),+];
    };
}

kinds! {
    UNREADABLE_BODY = "/problems/unreadable-body", 400, "The body cannot be read as JSON.",
        "The body is empty, is not JSON in UTF-8, ends too early, or is nested too deep. `line` and `column` say where.",
        "Send one JSON object in UTF-8 without a byte-order mark.",
        ["line", "column", "limit"];
    FORBIDDEN = "/problems/forbidden", 403, "This is not allowed.",
        "A web page asked whether it may call the service, and its origin is not among those configured.",
        "Let whoever runs the service add the origin with `--cors-origin`.",
        [];
    NOT_FOUND = "/problems/not-found", 404, "There is nothing at this path.",
        "No resource has this path. A slash at the end makes another path.",
        "See /openapi.json for every path, or /docs/ to read and try them.",
        [];
    METHOD_NOT_ALLOWED = "/problems/method-not-allowed", 405, "The path does not answer to this method.",
        "The path exists, the method is another one. The `Allow` field lists those there are.",
        "Use a method listed in `Allow`.",
        [];
    NOT_ACCEPTABLE = "/problems/not-acceptable", 406, "No form that is accepted can be sent.",
        "`Accept` or `Accept-Encoding` excludes every form there is. `available` lists them.",
        "Accept one of those in `available`, or leave the field out.",
        ["available"];
    REQUEST_TIMEOUT = "/problems/request-timeout", 408, "The body did not arrive in time.",
        "The request's body took longer to arrive than the service waits.",
        "Send it again over a faster line. Repeating is always safe.",
        [];
    CONTENT_TOO_LARGE = "/problems/content-too-large", 413, "The body is too large.",
        "The body has more than `limit_bytes` bytes, counted after decompression.",
        "Leave out what the question does not read, such as sections for other questions.",
        ["limit_bytes"];
    UNSUPPORTED_MEDIA_TYPE = "/problems/unsupported-media-type", 415, "The body is in a form that is not read.",
        "`Content-Type` is not application/json in UTF-8, or `Content-Encoding` is not one that is read.",
        "Send application/json, as it is or compressed with gzip or zstd.",
        [];
    INVALID_BUILD = "/problems/invalid-build", 422, "The build cannot be evaluated as given.",
        "The body is JSON, but not a build that can be worked with. `errors` lists every fault with its place.",
        "Put right what each entry of `errors` says.",
        ["errors", "errors_left_out"];
    MISSING_SECTION = "/problems/missing-section", 422, "The build lacks a section that the question needs.",
        "The build is in order, but a section or place that this question needs is not in it. `errors` lists them.",
        "Add what each entry of `errors` names.",
        ["errors", "errors_left_out"];
    TOO_MUCH_WORK = "/problems/too-much-work", 422, "The request would take too much work.",
        "The request is in order, but would take `work`, and `limit` is done for one request. Nothing was begun.",
        "Ask for less: fix some of what varies, as `detail` says.",
        ["work", "limit"];
    QUOTA_EXCEEDED = "https://iana.org/assignments/http-problem-types#quota-exceeded", 429, "Too many requests.",
        "This client has made as many requests as one client may in the time.",
        "Wait as long as `Retry-After` says. Repeating is always safe.",
        ["violated-policies"];
    INTERNAL = "/problems/internal", 500, "The service made a mistake.",
        "Something went wrong inside the service. It is never the fault of a build.",
        "Report it with the request's id, which is in `instance` and in `X-Request-Id`.",
        [];
    REDUCED_CAPACITY = "https://iana.org/assignments/http-problem-types#temporary-reduced-capacity", 503, "The service cannot answer just now.",
        "Working the answer out took longer than the service allows, or it is shutting down.",
        "Wait as long as `Retry-After` says. Repeating is always safe.",
        [];
}

impl Kind {
    /// Its name in a path of our own, where the kind is ours.
    pub fn slug(&self) -> Option<&'static str> {
        self.uri.strip_prefix("/problems/")
    }
}

/// What kept a request from being answered.
#[derive(Debug, Clone)]
pub struct Problem {
    /// Its kind.
    pub kind: &'static Kind,
    /// What happened this time, for a person.
    pub detail: Cow<'static, str>,
    /// Members of its kind.
    pub members: Vec<(&'static str, Value)>,
    /// Header fields that go with it.
    pub headers: Vec<(HeaderName, HeaderValue)>,
}

impl Problem {
    /// A problem of a kind.
    pub fn new(kind: &'static Kind, detail: impl Into<Cow<'static, str>>) -> Self {
        Self { kind, detail: detail.into(), members: Vec::new(), headers: Vec::new() }
    }

    /// With a member of its kind.
    pub fn with(mut self, member: &'static str, value: impl Into<Value>) -> Self {
        self.members.push((member, value.into()));
        self
    }

    /// With a header field.
    pub fn header(mut self, name: HeaderName, value: HeaderValue) -> Self {
        self.headers.push((name, value));
        self
    }

    /// Our own mistake; what it was is logged, not told.
    pub fn internal() -> Self {
        Self::new(
            &INTERNAL,
            "Something went wrong inside the service. The request's id leads to what is logged of it.",
        )
    }

    /// Nothing has the path asked for.
    pub fn not_found() -> Self {
        Self::new(
            &NOT_FOUND,
            "Nothing has this path. /openapi.json lists every path there is; /docs/ shows them.",
        )
    }

    /// The path does not answer to the method.
    pub fn method_not_allowed(allow: &'static str) -> Self {
        Self::new(&METHOD_NOT_ALLOWED, format!("This path answers to {allow}."))
            .header(header::ALLOW, HeaderValue::from_static(allow))
    }

    /// The body has more bytes than are read.
    pub fn content_too_large(limit_bytes: usize) -> Self {
        Self::new(
            &CONTENT_TOO_LARGE,
            format!("The body may have {limit_bytes} bytes after decompression, no more."),
        )
        .with("limit_bytes", limit_bytes)
    }

    /// The answer takes too long to work out.
    pub fn reduced_capacity(detail: &'static str) -> Self {
        Self::new(&REDUCED_CAPACITY, detail).header(header::RETRY_AFTER, HeaderValue::from_static("1"))
    }

    /// The body as the one who sent it will read it. `id` is the request's.
    pub fn to_json(&self, id: &str) -> Value {
        let mut problem = Map::new();
        problem.insert("type".to_owned(), self.kind.uri.into());
        problem.insert("title".to_owned(), self.kind.title.into());
        problem.insert("status".to_owned(), self.kind.status.into());
        problem.insert("detail".to_owned(), self.detail.as_ref().into());
        problem.insert("instance".to_owned(), format!("/requests/{id}").into());
        problem.extend(self.members.iter().map(|(member, value)| ((*member).to_owned(), value.clone())));
        problem.into()
    }
}

impl From<Refusal> for Problem {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Unreadable { detail, line, column, limit } => {
                let problem = Self::new(&UNREADABLE_BODY, format!("Line {line}, column {column}: {detail}."))
                    .with("line", line)
                    .with("column", column);
                match limit {
                    Some(limit) => problem.with("limit", limit),
                    None => problem,
                }
            }
            Refusal::Faults(faults) => faulty(&faults),
            Refusal::TooMuchWork { detail, work, limit } => {
                Self::new(&TOO_MUCH_WORK, detail).with("work", work).with("limit", limit)
            }
        }
    }
}

/// All faults of a build together.
fn faulty(faults: &Faults) -> Problem {
    let only_missing = faults.list().iter().all(|fault| fault.code == FaultCode::MissingSection);
    let kind = if only_missing { &MISSING_SECTION } else { &INVALID_BUILD };
    let first = faults.list().first().map(|fault| {
        let shown = match fault.pointer.as_str() {
            "" => "the document".to_owned(),
            long if long.chars().count() > LONGEST_POINTER => "a member".to_owned(),
            pointer => pointer.escape_debug().to_string(),
        };
        let end = if fault.detail.ends_with('?') { "" } else { "." };
        format!("{shown} {}{end}", fault.detail)
    });
    let detail = match (faults.count(), first.unwrap_or_default()) {
        (1, first) => format!("1 fault: {first}"),
        (count, first) => format!("{count} faults. The first: {first}"),
    };
    let problem = Problem::new(kind, detail).with("errors", json!(faults.list()));
    match faults.left_out() {
        0 => problem,
        count => problem.with("errors_left_out", count),
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.detail)
    }
}

impl ResponseError for Problem {
    fn status_code(&self) -> StatusCode {
        StatusCode::from_u16(self.kind.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR)
    }

    /// Status and header fields; [`write`] adds the body, when the request's id is at hand.
    fn error_response(&self) -> HttpResponse<BoxBody> {
        let mut response = HttpResponse::new(self.status_code());
        for (name, value) in &self.headers {
            response.headers_mut().insert(name.clone(), value.clone());
        }
        response
    }
}

/// Writes the body of an error and the fields that belong to it: the one place where this is done.
///
/// `problem` is none where the framework refused a request before any code of ours saw it; the status is then
/// all there is to tell.
pub fn write(problem: Option<&Problem>, head: &mut ResponseHead, id: &str) -> BoxBody {
    let body = match problem {
        Some(problem) => problem.to_json(id),
        None => json!({
            "type": "about:blank",
            "title": head.status.canonical_reason().unwrap_or("Error"),
            "status": head.status.as_u16(),
            "detail": "The request could not be taken.",
            "instance": format!("/requests/{id}"),
        }),
    };
    head.headers_mut().insert(header::CONTENT_TYPE, MEDIA_TYPE);
    head.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
    BoxBody::new(body.to_string())
}

#[cfg(test)]
mod tests {
    use wainwright::Build;

    use super::*;

    fn refused(json: &str) -> Problem {
        Problem::from(Build::from_json(json.as_bytes()).unwrap_err())
    }

    #[test]
    fn a_refused_build_lists_each_fault_with_pointer_and_sentence() {
        let problem = refused(r#"{"parts": {"bench": {"mass_lb": -4, "mas": 1}}}"#);
        let json = problem.to_json("abc");
        assert_eq!(json["type"], "/problems/invalid-build");
        assert_eq!(json["status"], 422);
        assert_eq!(json["instance"], "/requests/abc");
        let pointers: Vec<_> =
            json["errors"].as_array().unwrap().iter().map(|e| e["pointer"].as_str().unwrap()).collect();
        assert_eq!(pointers, ["/parts/bench/mass_lb", "/parts/bench/mas"]);
        assert!(problem.detail.starts_with("2 faults. The first: /parts/bench/mass_lb must be 0 or more"));
    }

    #[test]
    fn text_that_is_not_json_names_line_and_column() {
        let json = refused("{\n  \"parts\": oops}").to_json("abc");
        assert_eq!((json["status"].as_u64(), json["line"].as_u64()), (Some(400), Some(2)));
        assert!(json["column"].as_u64().is_some());
        assert!(json.get("limit").is_none());
    }

    #[test]
    fn a_long_key_of_the_caller_does_not_come_back_in_the_sentence() {
        let key = "k".repeat(5000);
        assert!(refused(&format!(r#"{{"parts": {{"{key}": {{"mass_lb": 1}}}}}}"#)).detail.len() < 300);
    }

    #[test]
    fn every_kind_says_what_happened_and_what_helps() {
        for kind in ALL {
            assert!(
                StatusCode::from_u16(kind.status).is_ok_and(|s| s.is_client_error() || s.is_server_error())
            );
            for text in [kind.title, kind.meaning, kind.remedy] {
                assert!(text.ends_with('.'), "{}: {text}", kind.uri);
            }
        }
    }
}
