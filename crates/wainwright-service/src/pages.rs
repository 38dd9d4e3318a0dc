//! What has an address of its own and can be kept by a cache: the contract, the rules, the limits, the pages.

use std::fmt::Write as _;
use std::sync::Arc;

use actix_web::http::StatusCode;
use actix_web::http::header::{self, ContentEncoding, HeaderMap, HeaderValue};
use actix_web::web::Bytes;
use actix_web::{HttpRequest, HttpResponse};

use crate::problem::{self, Problem};
use crate::{accept, coding};

/// Caches may keep a page for five minutes. Common practice.
const KEEP: HeaderValue = HeaderValue::from_static("public, max-age=300");
/// Our own pages are plain text with links: they load nothing and run nothing.
const NOTHING: &str = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
/// The pages of the contract run their own script and call this service, and nothing else.
const OWN_SCRIPT: &str = "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; \
                          connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

const HTML: &str = "text/html; charset=utf-8";

/// Bytes with an address.
#[derive(Debug, Clone)]
pub struct Page {
    media_type: String,
    bytes: Bytes,
    policy: Option<&'static str>,
    hash: u64,
}

impl Page {
    /// JSON.
    pub fn json(value: &serde_json::Value) -> Self {
        Self::new("application/json".to_owned(), value.to_string().into(), None)
    }

    fn new(media_type: String, bytes: Bytes, policy: Option<&'static str>) -> Self {
        let hash = fnv_1a(&bytes);
        Self { media_type, bytes, policy, hash }
    }

    /// The answer to a request for it: the page, or that the caller has it already.
    pub fn answer(&self, request: &HttpRequest) -> Result<HttpResponse, Problem> {
        if self.media_type == "application/json" {
            accept::require(request.headers(), "application/json")?;
        }
        let tag = self.tag(coding::preferred(request)?);
        let known = is_known(request.headers(), &tag);
        let mut response = HttpResponse::build(if known { StatusCode::NOT_MODIFIED } else { StatusCode::OK });
        response.insert_header((header::ETAG, tag));
        response.insert_header((header::CACHE_CONTROL, KEEP));
        response.insert_header((header::VARY, HeaderValue::from_static("Accept-Encoding")));
        if known {
            return Ok(response.finish());
        }
        response.insert_header((header::CONTENT_TYPE, self.media_type.as_str()));
        if let Some(policy) = self.policy {
            response.insert_header((header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(policy)));
        }
        Ok(response.body(self.bytes.clone()))
    }

    /// The tag of these bytes in a coding; each coding has its own.
    fn tag(&self, coding: ContentEncoding) -> String {
        let compressed =
            coding != ContentEncoding::Identity && self.bytes.len() as u64 >= coding::WORTH_BYTES;
        match compressed {
            true => format!("\"{:016x}-{}\"", self.hash, coding.as_str()),
            false => format!("\"{:016x}\"", self.hash),
        }
    }
}

/// Does the caller name this tag as one it has? (RFC 9110, section 13.1.2; the comparison is the weak one.)
fn is_known(headers: &HeaderMap, tag: &str) -> bool {
    headers
        .get_all(header::IF_NONE_MATCH)
        .filter_map(|field| field.to_str().ok())
        .flat_map(|field| field.split(','))
        .map(str::trim)
        .any(|given| given == "*" || given.strip_prefix("W/").unwrap_or(given) == tag)
}

/// A hash of 64 bits (Fowler, Noll and Vo, FNV-1a; from memory): the same on every machine.
fn fnv_1a(bytes: &[u8]) -> u64 {
    bytes
        .iter()
        .fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

/// The page of one kind of problem.
pub fn problem(slug: &str) -> Option<Page> {
    let kind = problem::ALL.iter().find(|kind| kind.slug() == Some(slug))?;
    let mut body = format!("<h1>{}</h1>\n<p>Status {}.</p>\n", text(kind.title), kind.status);
    for paragraph in [kind.meaning, kind.remedy] {
        _ = writeln!(body, "<p>{}</p>", text(paragraph));
    }
    _ = writeln!(body, "<p><a href=\"/problems\">All kinds of problems</a></p>");
    Some(html(kind.title, &body))
}

/// The page that lists every kind of problem.
pub fn problems() -> Page {
    let mut body = "<h1>Kinds of problems</h1>\n<dl>\n".to_owned();
    for kind in problem::ALL {
        let link = match kind.slug() {
            Some(_) => format!("<a href=\"{0}\">{0}</a>", kind.uri),
            None => text(kind.uri),
        };
        _ = writeln!(body, "<dt>{} {link}</dt>\n<dd>{}</dd>", kind.status, text(kind.meaning));
    }
    body.push_str("</dl>\n");
    html("Kinds of problems", &body)
}

fn html(title: &str, body: &str) -> Page {
    let title = text(title);
    let page = format!(
        "<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>{title}</title></head>\n\
         <body>\n{body}</body>\n</html>\n"
    );
    Page::new(HTML.to_owned(), page.into(), Some(NOTHING))
}

/// Text as it may stand in a page, with code between backticks.
fn text(plain: &str) -> String {
    let escaped =
        plain.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;");
    let mut marked = String::new();
    for (i, piece) in escaped.split('`').enumerate() {
        let mark = if i == 0 {
            ""
        } else if i % 2 == 1 {
            "<code>"
        } else {
            "</code>"
        };
        marked.push_str(mark);
        marked.push_str(piece);
    }
    marked
}

/// One file of the pages that show the contract. They stand in the program; nothing is loaded from elsewhere.
pub fn docs(file: &str) -> Option<Page> {
    let config =
        Arc::new(utoipa_swagger_ui::Config::from("/openapi.json").use_base_layout().validator_url("none"));
    let found = utoipa_swagger_ui::serve(file, config).ok()??;
    if file.is_empty() || file == "index.html" {
        let page = String::from_utf8_lossy(&found.bytes)
            .replace("<title>Swagger UI</title>", "<title>Wainwright</title>");
        return Some(Page::new(HTML.to_owned(), page.into(), Some(OWN_SCRIPT)));
    }
    Some(Page::new(found.content_type, found.bytes.into_owned().into(), Some(OWN_SCRIPT)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_that_of_the_published_vectors() {
        // Fowler, Noll and Vo's test vectors (from memory).
        assert_eq!(fnv_1a(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv_1a(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv_1a(b"foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn text_is_escaped_and_code_is_marked() {
        assert_eq!(text("a<b & `c`"), "a&lt;b &amp; <code>c</code>");
    }

    #[test]
    fn every_kind_of_our_own_has_a_page() {
        for slug in problem::ALL.iter().filter_map(|kind| kind.slug()) {
            assert!(problem(slug).is_some(), "{slug}");
        }
        assert!(problem("no-such").is_none());
    }
}
