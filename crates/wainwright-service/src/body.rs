//! Receiving a request's body: its type, its coding, its size, and the time it takes.

use std::future::poll_fn;
use std::io::Read;
use std::pin::Pin;

use actix_web::error::PayloadError;
use actix_web::http::header::{self, HeaderMap, HeaderValue};
use actix_web::rt::time::timeout;
use actix_web::web::{Bytes, BytesMut, Payload};
use futures_core::Stream;

use crate::Config;
use crate::problem::{Problem, REQUEST_TIMEOUT, UNREADABLE_BODY, UNSUPPORTED_MEDIA_TYPE};

/// Up to this size a body is read and worked on at once; larger ones would keep other requests waiting.
const SMALL_BYTES: usize = 64 * 1024;
/// Largest zstd window that is given memory, as a power of two: 8 MiB, which RFC 8878 asks all to support.
const ZSTD_WINDOW: u32 = 23;

/// How a body is compressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Coding {
    Identity,
    Gzip,
    Zstd,
}

/// A body as it was sent.
#[derive(Debug)]
pub struct Body {
    bytes: Bytes,
    coding: Coding,
    limit_bytes: usize,
}

impl Body {
    /// Receives a body of JSON.
    pub async fn receive(
        headers: &HeaderMap,
        payload: &mut Payload,
        config: &Config,
    ) -> Result<Self, Problem> {
        require_json(headers)?;
        Self::receive_any(headers, payload, config).await
    }

    /// Receives a body, whatever is in it.
    pub async fn receive_any(
        headers: &HeaderMap,
        payload: &mut Payload,
        config: &Config,
    ) -> Result<Self, Problem> {
        let limit_bytes = config.body_limit_bytes;
        let coding = coding(headers)?;
        let announced =
            headers.get(header::CONTENT_LENGTH).and_then(|length| length.to_str().ok()?.parse().ok());
        if announced.is_some_and(|length: usize| length > limit_bytes) {
            return Err(Problem::content_too_large(limit_bytes));
        }
        match timeout(config.receive_limit_s.0, collect(payload, limit_bytes)).await {
            Ok(bytes) => Ok(Self { bytes: bytes?, coding, limit_bytes }),
            Err(_) => {
                let waited = config.receive_limit_s;
                Err(Problem::new(
                    &REQUEST_TIMEOUT,
                    format!("The body may take {waited} s to arrive, no longer."),
                ))
            }
        }
    }

    /// Is it read and worked on in no time?
    pub fn is_small(&self) -> bool {
        self.coding == Coding::Identity && self.bytes.len() <= SMALL_BYTES
    }

    /// What is in it, decompressed.
    pub fn content(self) -> Result<Bytes, Problem> {
        match self.coding {
            Coding::Identity => Ok(self.bytes),
            Coding::Gzip => inflate(flate2::bufread::MultiGzDecoder::new(&self.bytes[..]), self.limit_bytes),
            Coding::Zstd => {
                let mut decoder = zstd::Decoder::with_buffer(&self.bytes[..]).map_err(|_| not_inflated())?;
                decoder.window_log_max(ZSTD_WINDOW).map_err(|_| not_inflated())?;
                inflate(decoder, self.limit_bytes)
            }
        }
    }
}

/// All chunks of a body. A body of one chunk, as most are, is not copied.
async fn collect(payload: &mut Payload, limit_bytes: usize) -> Result<Bytes, Problem> {
    let Some(first) = next(payload).await? else { return Ok(Bytes::new()) };
    let Some(second) = next(payload).await? else { return within(first, limit_bytes) };
    let mut all = BytesMut::from(&first[..]);
    let mut chunk = Some(second);
    while let Some(bytes) = chunk {
        if all.len() + bytes.len() > limit_bytes {
            return Err(Problem::content_too_large(limit_bytes));
        }
        all.extend_from_slice(&bytes);
        chunk = next(payload).await?;
    }
    Ok(all.freeze())
}

async fn next(payload: &mut Payload) -> Result<Option<Bytes>, Problem> {
    poll_fn(|context| Pin::new(&mut *payload).poll_next(context)).await.transpose().map_err(|error| {
        match error {
            PayloadError::Incomplete(_) => unreadable("the body ends before it is complete; was it cut off?"),
            _ => unreadable("the body does not arrive as its header fields announce it"),
        }
    })
}

fn within(bytes: Bytes, limit_bytes: usize) -> Result<Bytes, Problem> {
    if bytes.len() <= limit_bytes { Ok(bytes) } else { Err(Problem::content_too_large(limit_bytes)) }
}

/// Decompresses, and stops at the limit however small the compressed body was.
fn inflate(decoder: impl Read, limit_bytes: usize) -> Result<Bytes, Problem> {
    let mut json = Vec::new();
    decoder.take(limit_bytes as u64 + 1).read_to_end(&mut json).map_err(|_| not_inflated())?;
    within(json.into(), limit_bytes)
}

fn not_inflated() -> Problem {
    unreadable("the body cannot be decompressed as Content-Encoding says")
}

fn unreadable(detail: &'static str) -> Problem {
    Problem::new(&UNREADABLE_BODY, format!("Line 1, column 1: {detail}.")).with("line", 1).with("column", 1)
}

/// JSON, in UTF-8 if a character set is named. Text is not taken for JSON: a page of any origin may send text.
fn require_json(headers: &HeaderMap) -> Result<(), Problem> {
    let given = headers.get(header::CONTENT_TYPE).map_or(&b""[..], HeaderValue::as_bytes);
    if given == b"application/json" || is_json(given) {
        return Ok(());
    }
    Err(Problem::new(&UNSUPPORTED_MEDIA_TYPE, "Content-Type must be application/json, in UTF-8.")
        .header(header::ACCEPT, HeaderValue::from_static("application/json")))
}

fn is_json(given: &[u8]) -> bool {
    let mut pieces = given.split(|byte| *byte == b';').map(<[u8]>::trim_ascii);
    let is_type = pieces.next().is_some_and(|name| name.eq_ignore_ascii_case(b"application/json"));
    let is_utf_8 = |piece: &[u8]| match piece.split_at_checked(b"charset=".len()) {
        Some((name, value)) if name.eq_ignore_ascii_case(b"charset=") => {
            value.eq_ignore_ascii_case(b"utf-8") || value.eq_ignore_ascii_case(b"\"utf-8\"")
        }
        _ => true,
    };
    is_type && pieces.all(is_utf_8)
}

fn coding(headers: &HeaderMap) -> Result<Coding, Problem> {
    let mut given = headers.get_all(header::CONTENT_ENCODING);
    let coding = match (given.next().map(|given| given.as_bytes().trim_ascii()), given.next()) {
        (None, _) => Some(Coding::Identity),
        (Some(name), None) if name.eq_ignore_ascii_case(b"identity") => Some(Coding::Identity),
        (Some(name), None) if name.eq_ignore_ascii_case(b"gzip") => Some(Coding::Gzip),
        (Some(name), None) if name.eq_ignore_ascii_case(b"x-gzip") => Some(Coding::Gzip),
        (Some(name), None) if name.eq_ignore_ascii_case(b"zstd") => Some(Coding::Zstd),
        _ => None,
    };
    coding.ok_or_else(|| {
        Problem::new(
            &UNSUPPORTED_MEDIA_TYPE,
            "Content-Encoding must be one of gzip and zstd, or be left out.",
        )
        .header(header::ACCEPT_ENCODING, HeaderValue::from_static("gzip, zstd, identity"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn json_is_json_in_utf_8_alone() {
        for yes in [
            "application/json",
            "Application/JSON; charset=UTF-8",
            "application/json;charset=\"utf-8\"",
            "application/json; v=1",
        ] {
            assert!(is_json(yes.as_bytes()), "{yes}");
        }
        for no in [
            "",
            "text/plain",
            "application/jsonp",
            "application/json; charset=latin1",
            "text/json; application/json",
        ] {
            assert!(!is_json(no.as_bytes()), "{no}");
        }
    }

    #[test]
    fn a_bomb_is_stopped_at_the_limit() {
        let blanks = vec![b' '; 50_000_000];
        let limit_bytes = 1000;
        let zstd = zstd::encode_all(&blanks[..], 3).unwrap();
        assert!(zstd.len() < 10_000);
        let mut gzip = flate2::bufread::GzEncoder::new(&blanks[..], flate2::Compression::best());
        let mut gzipped = Vec::new();
        gzip.read_to_end(&mut gzipped).unwrap();
        for (coding, bytes) in [(Coding::Zstd, zstd), (Coding::Gzip, gzipped)] {
            let body = Body { bytes: bytes.into(), coding, limit_bytes };
            assert_eq!(body.content().unwrap_err().kind.status, 413);
        }
    }

    #[test]
    fn what_is_not_compressed_as_announced_is_unreadable() {
        for coding in [Coding::Gzip, Coding::Zstd] {
            let body = Body { bytes: Bytes::from_static(b"{}"), coding, limit_bytes: 1000 };
            assert_eq!(body.content().unwrap_err().kind, &UNREADABLE_BODY);
        }
    }
}
