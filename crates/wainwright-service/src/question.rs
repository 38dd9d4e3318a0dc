//! Questions and operations as they are put over HTTP: JSON in, JSON of a report out.

use std::sync::Arc;

use actix_web::http::header::{self, HeaderValue};
use actix_web::{HttpRequest, HttpResponse, web};
use serde::Serialize;
use wainwright::operation::{ForEachOperation, Operation, for_each_operation};
use wainwright::question::{ForEachQuestion, Question, ask, for_each_question};
use wainwright::{Build, NamedFiles};

use crate::app::Service;
use crate::body::Body;
use crate::problem::Problem;
use crate::{accept, demo, work};

/// The media type of every report.
pub const JSON: HeaderValue = HeaderValue::from_static("application/json");
/// Reports are this long or shorter, as a rule.
const REPORT_BYTES: usize = 16 * 1024;

/// Answers the JSON of a build or a request with the JSON of a report.
pub type Answerer = dyn Fn(&[u8]) -> Result<Vec<u8>, Problem> + Send + Sync;

/// A question or an operation, and its path.
#[derive(Clone)]
pub struct Asked {
    /// The path it is put to.
    pub path: String,
    /// What answers it.
    pub answerer: Arc<Answerer>,
    /// JSON that is answered.
    pub example: fn() -> String,
    /// May it take long, whatever the size of the body?
    pub may_take_long: bool,
}

/// Every question and every operation of the calculation.
///
/// - `named_files`  the weather files and catalogues that requests may name
pub fn all(named_files: &Arc<NamedFiles>) -> Vec<Asked> {
    struct Collect<'a> {
        named_files: &'a Arc<NamedFiles>,
        asked: Vec<Asked>,
    }
    impl ForEachQuestion for Collect<'_> {
        fn question<Q: Question>(&mut self) {
            let named_files = Arc::clone(self.named_files);
            let answerer = Arc::new(move |json: &[u8]| answer::<Q>(json, &named_files));
            let example = || demo::ALL[0].json.to_owned();
            self.asked.push(Asked { path: path::<Q>(), answerer, example, may_take_long: false });
        }
    }
    impl ForEachOperation for Collect<'_> {
        fn operation<O: Operation>(&mut self) {
            let named_files = Arc::clone(self.named_files);
            let answerer = Arc::new(move |json: &[u8]| to_json(&O::answer(json, &named_files)?));
            let example = || O::example().to_string();
            let may_take_long = O::MAY_TAKE_LONG;
            self.asked.push(Asked { path: operation_path::<O>(), answerer, example, may_take_long });
        }
    }
    let mut collect = Collect { named_files, asked: Vec::new() };
    for_each_question(&mut collect);
    for_each_operation(&mut collect);
    collect.asked
}

/// The path of a question.
pub fn path<Q: Question>() -> String {
    format!("/v1/{}", Q::PATH)
}

/// The path of an operation.
pub fn operation_path<O: Operation>() -> String {
    format!("/v1/{}", O::PATH)
}

/// Puts a question to the JSON of a build.
///
/// # Errors
///
/// What is wrong with the build, all of it together.
pub fn answer<Q: Question>(json: &[u8], named_files: &NamedFiles) -> Result<Vec<u8>, Problem> {
    to_json(&ask::<Q>(&Build::from_json_with(json, &named_files.weather)?)?)
}

/// A report as JSON.
///
/// # Errors
///
/// The report cannot be written as JSON, which is a mistake of ours.
pub fn to_json(report: &impl Serialize) -> Result<Vec<u8>, Problem> {
    let mut json = Vec::with_capacity(REPORT_BYTES);
    serde_json::to_writer(&mut json, report).map_err(|_| Problem::internal())?;
    Ok(json)
}

/// Takes a request to a question and answers it.
pub(crate) async fn handle(
    request: HttpRequest,
    mut payload: web::Payload,
    service: Arc<Service>,
    answerer: Arc<Answerer>,
    may_take_long: bool,
) -> Result<HttpResponse, Problem> {
    accept::require(request.headers(), "application/json")?;
    let body = Body::receive(request.headers(), &mut payload, &service.config).await?;
    let report = work::work_out(body, &answerer, may_take_long, service.config.compute_limit_s.0).await?;
    let mut response = HttpResponse::Ok();
    response.insert_header((header::CONTENT_TYPE, JSON));
    response.insert_header((header::CACHE_CONTROL, HeaderValue::from_static("no-store")));
    Ok(response.body(report))
}
