//! Tables scored over HTTP as streams of Arrow: a table in, a table out.

use std::sync::Arc;

use actix_web::guard::{Guard, GuardContext};
use actix_web::http::header::{self, HeaderMap, HeaderValue};
use actix_web::{HttpRequest, HttpResponse, web};
use serde_json::Value;
use wainwright::NamedFiles;
use wainwright::batch::{self, Table};
use wainwright_arrow::stream::{self, MEDIA_TYPE};
use wainwright_arrow::{scored, table};

use crate::app::Service;
use crate::body::Body;
use crate::problem::{Problem, UNREADABLE_BODY};
use crate::question::Answerer;
use crate::{accept, work};

/// What the metadata of the schema hold of the request that is no column: JSON.
pub const KEY: &str = "wainwright";

/// Lets requests pass whose body is such a stream.
pub struct IsStream;

impl Guard for IsStream {
    fn check(&self, context: &GuardContext<'_>) -> bool {
        is_stream(context.head().headers())
    }
}

fn is_stream(headers: &HeaderMap) -> bool {
    let given = headers.get(header::CONTENT_TYPE).and_then(|given| given.to_str().ok()).unwrap_or_default();
    given.split(';').next().is_some_and(|name| name.trim().eq_ignore_ascii_case(MEDIA_TYPE))
}

/// What scores the table of a body.
///
/// - `named_files`  the weather files and catalogues that requests may name
pub fn answerer(named_files: &Arc<NamedFiles>) -> Arc<Answerer> {
    let named_files = Arc::clone(named_files);
    Arc::new(move |bytes: &[u8]| answer(bytes, &named_files))
}

fn answer(bytes: &[u8], named_files: &NamedFiles) -> Result<Vec<u8>, Problem> {
    let (schema, batches) = stream::read(bytes)
        .map_err(|error| unreadable(&format!("the body is no stream of Arrow: {error}")))?;
    let given = schema.metadata().get(KEY).ok_or_else(|| {
        unreadable("the metadata of the schema have no key wainwright; give base and scores there, as JSON")
    })?;
    let (base, scores) = request(given)?;
    let (columns, rows) = table(&schema, &batches)?;
    batch::within_limits(rows, scores.len())?;
    let scored_rows =
        batch::score(&base, Table { columns, rows, scores: &scores }, named_files, 1, |_, _| true)?;
    let Some(scored_rows) = scored_rows else { unreachable!("nobody ends it") };
    let batch = scored(rows, &scores, scored_rows).map_err(|_| Problem::internal())?;
    stream::write(&batch).map_err(|_| Problem::internal())
}

/// The base as JSON, and the scores.
fn request(json: &str) -> Result<(Vec<u8>, Vec<String>), Problem> {
    let what = "the metadata wainwright must be a JSON object with base and scores";
    let mut given: Value =
        serde_json::from_str(json).map_err(|error| unreadable(&format!("{what}: {error}")))?;
    let scores = given.as_object_mut().and_then(|members| members.shift_remove("scores"));
    let scores = scores.as_ref().and_then(Value::as_array).map(|list| {
        list.iter().map(|score| score.as_str().map(str::to_owned)).collect::<Option<Vec<String>>>()
    });
    match scores.flatten() {
        Some(scores) => Ok((given.to_string().into_bytes(), scores)),
        None => Err(unreadable(&format!("{what}; scores must be a list of text"))),
    }
}

fn unreadable(detail: &str) -> Problem {
    Problem::new(&UNREADABLE_BODY, format!("{detail}."))
}

/// Takes a table and answers with its scores.
pub(crate) async fn handle(
    request: HttpRequest,
    mut payload: web::Payload,
    service: Arc<Service>,
    answerer: Arc<Answerer>,
) -> Result<HttpResponse, Problem> {
    accept::require(request.headers(), MEDIA_TYPE)?;
    let body = Body::receive_any(request.headers(), &mut payload, &service.config).await?;
    let table = work::work_out(body, &answerer, true, service.config.compute_limit_s.0).await?;
    let mut response = HttpResponse::Ok();
    response.insert_header((header::CONTENT_TYPE, MEDIA_TYPE));
    response.insert_header((header::CACHE_CONTROL, HeaderValue::from_static("no-store")));
    Ok(response.body(table))
}
