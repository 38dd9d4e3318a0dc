//! What every request passes through: one layer for the id, the limit of each client, the pages that may call,
//! the metrics, the log, compression, the header fields, and the form of every error.
//!
//! One layer, and not one for each: every layer has its own future to poll and its own fields to look up.

use std::future::{Future, Ready, ready};
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::{Duration, Instant};

use actix_web::body::{BodySize, BoxBody, MessageBody};
use actix_web::dev::{self, ServiceRequest, ServiceResponse, Transform};
use actix_web::http::ConnectionType;
use actix_web::http::header::{self, ContentEncoding, HeaderName, HeaderValue};
use actix_web::{Error, HttpResponse};
use pin_project_lite::pin_project;
use tracing::{debug, error, warn};

use crate::app::Service;
use crate::coding;
use crate::cors::Cors;
use crate::problem::{self, Problem};
use crate::rate::Allowance;

const REQUEST_ID: HeaderName = HeaderName::from_static("x-request-id");
const NO_SNIFF: HeaderValue = HeaderValue::from_static("nosniff");

/// The layer around all routes.
#[derive(Clone)]
pub struct Layer(pub Arc<Service>);

impl<S> Transform<S, ServiceRequest> for Layer
where
    S: dev::Service<ServiceRequest, Response = ServiceResponse<BoxBody>, Error = Error>,
{
    type Response = ServiceResponse<BoxBody>;
    type Error = Error;
    type Transform = Around<S>;
    type InitError = ();
    type Future = Ready<Result<Around<S>, ()>>;

    fn new_transform(&self, inner: S) -> Self::Future {
        ready(Ok(Around { inner, service: Arc::clone(&self.0) }))
    }
}

/// The routes with the layer around them.
pub struct Around<S> {
    inner: S,
    service: Arc<Service>,
}

impl<S> dev::Service<ServiceRequest> for Around<S>
where
    S: dev::Service<ServiceRequest, Response = ServiceResponse<BoxBody>, Error = Error>,
{
    type Response = ServiceResponse<BoxBody>;
    type Error = Error;
    type Future = Passing<S::Future>;

    dev::forward_ready!(inner);

    fn call(&self, request: ServiceRequest) -> Self::Future {
        let mut passage = Passage::begin(&self.service, &request);
        match passage.turned_away(&request) {
            None => Passing::Routed { inner: self.inner.call(request), passage },
            Some(response) => {
                // Not `into_response`, which would lose the problem that the response carries.
                let response = ServiceResponse::new(request.into_parts().0, response);
                Passing::TurnedAway { response: Some(passage.end(response)) }
            }
        }
    }
}

pin_project! {
    /// A request on its way through.
    #[project = PassingProjection]
    pub enum Passing<F> {
        TurnedAway {
            response: Option<ServiceResponse<BoxBody>>,
        },
        Routed {
            #[pin]
            inner: F,
            passage: Passage,
        },
    }
}

impl<F: Future<Output = Result<ServiceResponse<BoxBody>, Error>>> Future for Passing<F> {
    type Output = F::Output;

    fn poll(self: Pin<&mut Self>, context: &mut Context) -> Poll<F::Output> {
        match self.project() {
            PassingProjection::TurnedAway { response } => match response.take() {
                Some(response) => Poll::Ready(Ok(response)),
                None => Poll::Pending,
            },
            PassingProjection::Routed { inner, passage } => {
                inner.poll(context).map(|answered| answered.map(|response| passage.end(response)))
            }
        }
    }
}

/// What is known of a request from its start to its answer.
pub struct Passage {
    service: Arc<Service>,
    begun: Instant,
    path: usize,
    id: HeaderValue,
    origin: Option<HeaderValue>,
    coding: ContentEncoding,
    allowance: Option<Allowance>,
}

impl Passage {
    fn begin(service: &Arc<Service>, request: &ServiceRequest) -> Self {
        let headers = request.headers();
        Self {
            begun: Instant::now(),
            path: service.metrics.index_of(request.path()),
            id: service.ids.of(headers.get(REQUEST_ID)),
            origin: if service.cors.is_off() { None } else { service.cors.allowed(headers) },
            coding: ContentEncoding::Identity,
            allowance: None,
            service: Arc::clone(service),
        }
    }

    /// The answer to a request that no route has to see.
    fn turned_away(&mut self, request: &ServiceRequest) -> Option<HttpResponse> {
        let service = &self.service;
        if !service.cors.is_off() && Cors::is_preflight(request.method(), request.headers()) {
            return Some(service.cors.preflight(request.headers()).unwrap_or_else(HttpResponse::from_error));
        }
        if let (Some(rate), Some(peer)) = (&service.rate, request.peer_addr())
            && !is_operational(request.path())
        {
            let allowance = rate.count(peer.ip(), self.begun);
            self.allowance = Some(allowance);
            if !allowance.allowed {
                return Some(HttpResponse::from_error(rate.refuse(allowance)));
            }
        }
        match coding::preferred(request) {
            Ok(coding) => {
                self.coding = coding;
                None
            }
            Err(problem) => Some(HttpResponse::from_error(problem)),
        }
    }

    /// Completes the answer, counts and logs it.
    fn end(&self, response: ServiceResponse<BoxBody>) -> ServiceResponse<BoxBody> {
        let status = response.status();
        let mut response = if status.is_client_error() || status.is_server_error() {
            self.fail(response)
        } else {
            self.compress(response)
        };
        let head = response.response_mut().head_mut();
        head.headers_mut().insert(REQUEST_ID, self.id.clone());
        head.headers_mut().insert(header::X_CONTENT_TYPE_OPTIONS, NO_SNIFF);
        if !self.service.cors.is_off() {
            self.service.cors.write(self.origin.clone(), head.headers_mut());
        }
        if let (Some(rate), Some(allowance)) = (&self.service.rate, self.allowance) {
            rate.write(allowance, head.headers_mut());
        }
        if self.service.health.is_stopping() {
            head.set_connection_type(ConnectionType::Close);
        }
        let took = self.begun.elapsed();
        self.service.metrics.count(self.path, response.request().method(), status, took);
        debug!(
            id = self.id(),
            method = response.request().method().as_str(),
            path = response.request().path(),
            status = status.as_u16(),
            ms = milliseconds(took),
            "answered"
        );
        response
    }

    /// Gives an error its form, and logs it where those who run the service should know.
    fn fail(&self, response: ServiceResponse<BoxBody>) -> ServiceResponse<BoxBody> {
        let problem = response.response().error().and_then(|error| error.as_error::<Problem>()).cloned();
        self.log_failure(&response, problem.as_ref());
        response.map_body(|head, _| problem::write(problem.as_ref(), head, self.id()))
    }

    fn log_failure(&self, response: &ServiceResponse<BoxBody>, problem: Option<&Problem>) {
        let path = self.service.metrics.template(self.path);
        if is_operational(path) {
            return;
        }
        let status = response.status().as_u16();
        let kind = problem.map_or("about:blank", |problem| problem.kind.uri);
        match status {
            500.. if status != 503 => error!(id = self.id(), path, status, kind, "failed"),
            408 | 413 | 429 | 503 => warn!(id = self.id(), path, status, kind, "refused by a limit"),
            _ => {}
        }
    }

    /// Compresses an answer if the caller wants that and it is worth it.
    fn compress(&self, response: ServiceResponse<BoxBody>) -> ServiceResponse<BoxBody> {
        let worth = |size: BodySize| matches!(size, BodySize::Sized(bytes) if bytes >= coding::WORTH_BYTES);
        if self.coding == ContentEncoding::Identity || !worth(response.response().body().size()) {
            return response;
        }
        response.map_body(|head, body| match body.try_into_bytes() {
            Ok(bytes) => match coding::compress(self.coding, &bytes) {
                Some(compressed) => {
                    head.headers_mut().insert(header::CONTENT_ENCODING, coding::name(self.coding));
                    head.headers_mut().insert(header::VARY, HeaderValue::from_static("Accept-Encoding"));
                    BoxBody::new(compressed)
                }
                None => BoxBody::new(bytes),
            },
            Err(body) => body,
        })
    }

    /// The request's id as text. It is made of ASCII letters, digits, `_` and `-`.
    fn id(&self) -> &str {
        self.id.to_str().unwrap_or_default()
    }
}

/// Is it a path for those who run the service? These are neither limited nor logged.
fn is_operational(path: &str) -> bool {
    path.starts_with("/health/") || path == "/metrics"
}

fn milliseconds(duration: Duration) -> f64 {
    duration.as_secs_f64() * 1e3
}
