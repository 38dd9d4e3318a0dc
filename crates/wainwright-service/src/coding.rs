//! Which compression an answer is sent with, and whether it is worth it (RFC 9110, section 12.5.3).

use std::io::Read;

use actix_web::HttpMessage;
use actix_web::http::header::{self, AcceptEncoding, ContentEncoding, Encoding, Header, HeaderValue};

use crate::problem::{NOT_ACCEPTABLE, Problem};

/// Below this size compression costs more than the bytes it saves. Common practice.
pub const WORTH_BYTES: u64 = 1024;

/// The coding that the caller likes best of those there are; none at all where the caller names none.
///
/// # Errors
///
/// The caller takes neither a coding that there is nor the answer as it is.
pub fn preferred(request: &impl HttpMessage) -> Result<ContentEncoding, Problem> {
    if !request.headers().contains_key(header::ACCEPT_ENCODING) {
        return Ok(ContentEncoding::Identity);
    }
    let Ok(accepted) = AcceptEncoding::parse(request) else { return Ok(ContentEncoding::Identity) };
    let supported = [Encoding::zstd(), Encoding::gzip(), Encoding::identity()];
    match accepted.negotiate(supported.iter()) {
        Some(Encoding::Known(coding)) => Ok(coding),
        Some(Encoding::Unknown(_)) => Ok(ContentEncoding::Identity),
        None => Err(Problem::new(
            &NOT_ACCEPTABLE,
            "Answers are sent as they are, or with gzip or zstd, and Accept-Encoding excludes all three.",
        )
        .with("available", vec!["identity", "gzip", "zstd"])),
    }
}

/// The bytes in a coding, at its quickest setting; none where it cannot be done.
pub fn compress(coding: ContentEncoding, bytes: &[u8]) -> Option<Vec<u8>> {
    match coding {
        ContentEncoding::Gzip => {
            let mut compressed = Vec::with_capacity(bytes.len() / 3);
            let mut encoder = flate2::bufread::GzEncoder::new(bytes, flate2::Compression::fast());
            encoder.read_to_end(&mut compressed).ok()?;
            Some(compressed)
        }
        ContentEncoding::Zstd => zstd::bulk::compress(bytes, 1).ok(),
        _ => None,
    }
}

/// The name of a coding.
pub fn name(coding: ContentEncoding) -> HeaderValue {
    HeaderValue::from_static(coding.as_str())
}
