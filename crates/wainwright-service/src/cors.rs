//! Which web pages may call the service (the CORS protocol of the Fetch standard).

use actix_web::HttpResponse;
use actix_web::http::Method;
use actix_web::http::header::{self, HeaderMap, HeaderValue};

use crate::problem::{FORBIDDEN, Problem};

const METHODS: HeaderValue = HeaderValue::from_static("GET, HEAD, POST");
const HEADERS: HeaderValue = HeaderValue::from_static("Content-Type, Content-Encoding, X-Request-Id");
const EXPOSED: HeaderValue =
    HeaderValue::from_static("RateLimit, RateLimit-Policy, Retry-After, X-Request-Id");
/// A browser may keep the answer to its asking for so long [s].
const MAX_AGE: HeaderValue = HeaderValue::from_static("3600");

/// The origins whose pages may call.
#[derive(Debug, Default)]
pub struct Cors {
    origins: Vec<HeaderValue>,
}

impl Cors {
    /// Exactly these origins. What cannot be a header field's value can be no origin, and is passed over.
    pub fn new(origins: &[String]) -> Self {
        let origins = origins.iter().map(|origin| origin.trim().trim_end_matches('/'));
        Self { origins: origins.filter_map(|origin| HeaderValue::from_str(origin).ok()).collect() }
    }

    /// Is no origin allowed at all?
    pub fn is_off(&self) -> bool {
        self.origins.is_empty()
    }

    /// The origin of a request, if it is allowed.
    pub fn allowed(&self, headers: &HeaderMap) -> Option<HeaderValue> {
        let origin = headers.get(header::ORIGIN)?;
        self.origins.iter().find(|allowed| *allowed == origin).cloned()
    }

    /// Is it a browser asking whether a page may call?
    pub fn is_preflight(method: &Method, headers: &HeaderMap) -> bool {
        method == Method::OPTIONS
            && headers.contains_key(header::ORIGIN)
            && headers.contains_key(header::ACCESS_CONTROL_REQUEST_METHOD)
    }

    /// The answer to a browser that asks.
    pub fn preflight(&self, headers: &HeaderMap) -> Result<HttpResponse, Problem> {
        if self.allowed(headers).is_none() {
            return Err(Problem::new(&FORBIDDEN, "Pages of this origin may not call the service."));
        }
        let mut response = HttpResponse::NoContent();
        response.insert_header((header::ACCESS_CONTROL_ALLOW_METHODS, METHODS));
        response.insert_header((header::ACCESS_CONTROL_ALLOW_HEADERS, HEADERS));
        response.insert_header((header::ACCESS_CONTROL_MAX_AGE, MAX_AGE));
        Ok(response.finish())
    }

    /// The fields that let an allowed page see an answer.
    pub fn write(&self, origin: Option<HeaderValue>, headers: &mut HeaderMap) {
        headers.append(header::VARY, HeaderValue::from_static("Origin"));
        if let Some(origin) = origin {
            headers.insert(header::ACCESS_CONTROL_ALLOW_ORIGIN, origin);
            headers.insert(header::ACCESS_CONTROL_EXPOSE_HEADERS, EXPOSED);
        }
    }
}
