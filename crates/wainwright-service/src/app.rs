//! The whole service, assembled.

use std::sync::Arc;

use actix_web::body::BoxBody;
use actix_web::dev::{ServiceFactory, ServiceRequest, ServiceResponse};
use actix_web::http::header::{self, HeaderValue};
use actix_web::web::{self, ServiceConfig};
use actix_web::{App, Error, HttpRequest, HttpResponse, Resource, Route};
use wainwright::NamedFiles;
use wainwright::batch::ScoreTable;

use crate::config::Config;
use crate::cors::Cors;
use crate::folder::FolderError;
use crate::health::{self, Health};
use crate::ids::Ids;
use crate::layer::Layer;
use crate::metrics::Metrics;
use crate::pages::{self, Page};
use crate::papers::{self, Writers};
use crate::problem::Problem;
use crate::question::{self, Answerer, Asked};
use crate::rate::RateLimit;
use crate::{limits, named_files, openapi, rules, table, work};

/// What the header field `Allow` says of a page.
const READ: &str = "GET, HEAD, OPTIONS";
/// What it says of a question.
const ASK: &str = "POST, OPTIONS";

/// Everything that all workers share.
pub struct Service {
    /// The settings.
    pub config: Config,
    /// Whether it takes requests.
    pub health: Health,
    /// What is counted.
    pub metrics: Metrics,
    pub(crate) cors: Cors,
    pub(crate) ids: Ids,
    pub(crate) rate: Option<RateLimit>,
    questions: Vec<Asked>,
    writers: Writers,
    tables: Arc<Answerer>,
    fixed: Vec<(&'static str, Page)>,
}

impl Service {
    /// The service with every question of the calculation, and the files of its folders.
    ///
    /// # Errors
    ///
    /// A folder cannot be read, or a file in it is refused.
    pub fn new(config: Config) -> Result<Self, FolderError> {
        let named_files =
            named_files::read(config.weather_folder.as_deref(), config.catalogue_folder.as_deref())?;
        let catalogues = Page::json(&named_files::catalogues(&named_files));
        let named_files = Arc::new(named_files);
        let (writers, tables) = (Writers::new(&named_files), table::answerer(&named_files));
        let mut service =
            Self { writers, tables, ..Self::with_questions(config, question::all(&named_files)) };
        service.fixed.retain(|(path, _)| *path != named_files::PATH);
        service.fixed.push((named_files::PATH, catalogues));
        Ok(service)
    }

    /// The service with these questions.
    pub fn with_questions(config: Config, questions: Vec<Asked>) -> Self {
        let fixed = vec![
            ("/openapi.json", Page::json(&openapi())),
            ("/v1/limits", Page::json(&limits::limits(&config))),
            ("/v1/findings", Page::json(&rules::rules())),
            ("/problems", pages::problems()),
            (named_files::PATH, Page::json(&named_files::catalogues(&NamedFiles::default()))),
        ];
        let others =
            [papers::PATH, "/health/live", "/health/ready", "/metrics", "/docs/{file}", "/problems/{slug}"];
        let paths = questions.iter().map(|asked| asked.path.clone());
        let paths = paths.chain(fixed.iter().map(|(path, _)| *path).chain(others).map(str::to_owned));
        Self {
            health: Health::default(),
            metrics: Metrics::new(paths),
            cors: Cors::new(&config.cors_origins),
            ids: Ids::new(),
            rate: config.rate_limit.map(|quota| RateLimit::new(quota, config.rate_window_s.0)),
            questions,
            writers: Writers::new(&Arc::default()),
            tables: table::answerer(&Arc::default()),
            fixed,
            config,
        }
    }

    /// Puts everything that can be asked to its example, and is ready if each is answered.
    ///
    /// # Errors
    ///
    /// Something that has no answer to its example.
    pub fn try_out(&self) -> Result<(), Problem> {
        for asked in &self.questions {
            work::guarded(|| (asked.answerer)((asked.example)().as_bytes()))?;
        }
        self.health.ready();
        Ok(())
    }
}

/// The application that one worker runs.
pub fn app(
    service: &Arc<Service>,
) -> App<
    impl ServiceFactory<
        ServiceRequest,
        Config = (),
        Response = ServiceResponse<BoxBody>,
        Error = Error,
        InitError = (),
    > + use<>,
> {
    App::new()
        .configure(|routes| questions(routes, service))
        .configure(|routes| self::pages(routes, service))
        .configure(|routes| operation(routes, service))
        .default_service(web::to(|| async { Err::<HttpResponse, _>(Problem::not_found()) }))
        .wrap(Layer(Arc::clone(service)))
}

/// The questions, and the papers that are made of their answers.
fn questions(routes: &mut ServiceConfig, service: &Arc<Service>) {
    for asked in &service.questions {
        let mut resource = resource(&asked.path, ASK);
        if asked.path == question::operation_path::<ScoreTable>() {
            resource = resource.route(score_tables(service));
        }
        let (service, answerer) = (Arc::clone(service), Arc::clone(&asked.answerer));
        let may_take_long = asked.may_take_long;
        let ask = web::post().to(move |request: HttpRequest, payload: web::Payload| {
            question::handle(request, payload, Arc::clone(&service), Arc::clone(&answerer), may_take_long)
        });
        routes.service(resource.route(ask));
    }
    let (service, writers) = (Arc::clone(service), service.writers.clone());
    let write = web::post().to(move |request: HttpRequest, payload: web::Payload| {
        papers::handle(request, payload, Arc::clone(&service), writers.clone())
    });
    routes.service(resource(papers::PATH, ASK).route(write));
}

/// Tables as streams of Arrow, beside those in JSON.
fn score_tables(service: &Arc<Service>) -> Route {
    let (service, tables) = (Arc::clone(service), Arc::clone(&service.tables));
    web::post().guard(table::IsStream).to(move |request: HttpRequest, payload: web::Payload| {
        table::handle(request, payload, Arc::clone(&service), Arc::clone(&tables))
    })
}

/// What can be read and kept.
fn pages(routes: &mut ServiceConfig, service: &Arc<Service>) {
    for (path, page) in &service.fixed {
        let page = page.clone();
        routes.service(read(path, move |request| page.answer(&request)));
    }
    routes.service(read("/problems/{slug}", |request| named(&request, "slug", pages::problem)));
    routes.service(read("/docs/{file:.*}", |request| named(&request, "file", pages::docs)));
}

/// The page that a piece of the path names.
fn named(
    request: &HttpRequest,
    piece: &str,
    page: impl Fn(&str) -> Option<Page>,
) -> Result<HttpResponse, Problem> {
    let name = request.match_info().get(piece).unwrap_or_default();
    page(name).ok_or_else(Problem::not_found)?.answer(request)
}

/// What those who run the service ask.
fn operation(routes: &mut ServiceConfig, service: &Arc<Service>) {
    let (ready, metrics) = (Arc::clone(service), Arc::clone(service));
    routes.service(read("/health/live", |_| Ok(health::pass())));
    routes.service(read("/health/ready", move |_| ready.health.readiness()));
    routes.service(read("/metrics", move |_| {
        let mut response = HttpResponse::Ok();
        response.insert_header((header::CONTENT_TYPE, "text/plain; version=0.0.4; charset=utf-8"));
        response.insert_header((header::CACHE_CONTROL, HeaderValue::from_static("no-store")));
        Ok(response.body(metrics.metrics.text()))
    }));
}

/// A resource that is read.
fn read(
    path: &str,
    answer: impl Fn(HttpRequest) -> Result<HttpResponse, Problem> + Clone + 'static,
) -> Resource {
    let head = answer.clone();
    resource(path, READ)
        .route(web::get().to(move |request: HttpRequest| std::future::ready(answer(request))))
        .route(web::head().to(move |request: HttpRequest| std::future::ready(head(request))))
}

/// A resource that tells which methods it answers to, and refuses the others.
fn resource(path: &str, allow: &'static str) -> Resource {
    let options = move || async move {
        HttpResponse::NoContent().insert_header((header::ALLOW, HeaderValue::from_static(allow))).finish()
    };
    web::resource(path).route(web::method(actix_web::http::Method::OPTIONS).to(options)).default_service(
        web::to(move || async move { Err::<HttpResponse, _>(Problem::method_not_allowed(allow)) }),
    )
}
