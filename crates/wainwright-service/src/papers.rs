//! The hand-over papers over HTTP: JSON of a build in, a page of HTML or Markdown out.

use std::sync::Arc;

use actix_web::http::header::{self, HeaderValue};
use actix_web::{HttpRequest, HttpResponse, web};
use wainwright::evaluate::Evaluate;
use wainwright::papers::Papers;
use wainwright::question::Question;
use wainwright::{Build, NamedFiles};

use crate::app::Service;
use crate::body::Body;
use crate::problem::Problem;
use crate::question::Answerer;
use crate::{accept, work};

/// The path of the papers.
pub const PATH: &str = "/v1/papers";
/// The forms there are; the first is sent to those who take either.
pub const FORMS: [&str; 2] = ["text/html", "text/markdown"];
/// The page has its style in it; it loads nothing and runs nothing.
const OWN_STYLE: HeaderValue = HeaderValue::from_static(
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
);

/// What writes the papers of the JSON of a build, in each of the forms.
#[derive(Clone)]
pub struct Writers([Arc<Answerer>; 2]);

impl Writers {
    /// Writers that know the weather files of this library.
    pub fn new(named_files: &Arc<NamedFiles>) -> Self {
        let writer = |form: fn(&Papers) -> String| -> Arc<Answerer> {
            let named_files = Arc::clone(named_files);
            Arc::new(move |json: &[u8]| {
                let build = Build::from_json_with(json, &named_files.weather)?;
                Ok(form(&Papers::of(&build, &Evaluate::answer(&build))).into_bytes())
            })
        };
        Self([writer(Papers::html), writer(Papers::markdown)])
    }
}

/// Takes a build and answers with its papers.
pub(crate) async fn handle(
    request: HttpRequest,
    mut payload: web::Payload,
    service: Arc<Service>,
    writers: Writers,
) -> Result<HttpResponse, Problem> {
    let form = accept::preferred(request.headers(), &FORMS)?;
    let body = Body::receive(request.headers(), &mut payload, &service.config).await?;
    let papers = work::work_out(body, &writers.0[form], false, service.config.compute_limit_s.0).await?;
    let mut response = HttpResponse::Ok();
    response.insert_header((header::CONTENT_TYPE, format!("{}; charset=utf-8", FORMS[form])));
    response.insert_header((header::CACHE_CONTROL, HeaderValue::from_static("no-store")));
    response.insert_header((header::CONTENT_SECURITY_POLICY, OWN_STYLE));
    Ok(response.body(papers))
}
