//! The `wainwright` program.

use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

use clap::{Parser, Subcommand};
use tracing::{error, info};
use wainwright::Build;
use wainwright::evaluate::{Evaluate, EvaluateReport};
use wainwright::papers::Papers;
use wainwright::question::{Answer, Question};

use crate::app::Service;
use crate::config::Config;
use crate::{logs, openapi, server, shutdown, weather_folder};

/// Something in the build breaks a rating, a law or a standard.
const VIOLATION: u8 = 1;
/// What was given cannot be worked with.
const REFUSED: u8 = 2;

/// The arithmetic of turning a cargo trailer into a camper
#[derive(Debug, Parser)]
#[command(name = "wainwright", version, arg_required_else_help = true)]
struct Program {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Answer questions over HTTP. Every flag can be given in the environment as well
    Serve(Box<Config>),
    /// Put every question to the build in a file, as one
    ///
    /// Exit status 0: no violation; 1: at least one; 2: the file is refused.
    Evaluate {
        /// File with the JSON of a build; - for standard input
        file: PathBuf,
        /// Print the reports as JSON
        #[arg(long)]
        json: bool,
        /// Folder of weather files (EPW as *.epw, TMY3 as *.csv) that the build may name
        #[arg(long, env = "WAINWRIGHT_WEATHER_FOLDER", value_name = "FOLDER")]
        weather_folder: Option<PathBuf>,
    },
    /// Write the hand-over papers of the build in a file, as one page of HTML to print
    ///
    /// Exit status 0: no violation; 1: at least one; 2: the file is refused.
    Papers {
        /// File with the JSON of a build; - for standard input
        file: PathBuf,
        /// Write Markdown
        #[arg(long)]
        markdown: bool,
        /// Folder of weather files (EPW as *.epw, TMY3 as *.csv) that the build may name
        #[arg(long, env = "WAINWRIGHT_WEATHER_FOLDER", value_name = "FOLDER")]
        weather_folder: Option<PathBuf>,
    },
    /// Print the published contract (OpenAPI 3.1)
    Openapi,
}

/// Runs the program with the arguments it was called with.
pub fn run() -> ExitCode {
    match Program::parse().command {
        Command::Serve(config) => serve(*config),
        Command::Evaluate { file, json, weather_folder } => {
            evaluate_file(&file, weather_folder.as_deref(), |_, report| match json {
                true => as_indented_json(report),
                false => as_text(report),
            })
        }
        Command::Papers { file, markdown, weather_folder } => {
            evaluate_file(&file, weather_folder.as_deref(), |build, report| {
                let papers = Papers::of(build, report);
                if markdown { papers.markdown() } else { papers.html() }
            })
        }
        Command::Openapi => print(&format!("{:#}\n", openapi()), ExitCode::SUCCESS),
    }
}

fn serve(config: Config) -> ExitCode {
    if let Err(message) = logs::start(&config) {
        return refuse(&message);
    }
    match actix_web::rt::System::new().block_on(run_server(config)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => refuse(&message),
    }
}

async fn run_server(config: Config) -> Result<(), String> {
    let listen = config.listen;
    let service = Arc::new(Service::new(config).map_err(|error| error.to_string())?);
    let (server, address) =
        server::bind(&service).map_err(|error| format!("cannot listen at {listen}: {error}"))?;
    // Whoever started the program reads the address here, above all where the port was 0.
    print(&format!("listening on http://{address}\n"), ExitCode::SUCCESS);
    info!(%address, version = env!("CARGO_PKG_VERSION"), "started");
    if let Err(problem) = service.try_out() {
        error!(%problem, "not ready: the demonstration build is not answered");
    }
    actix_web::rt::spawn(shutdown::on_signal(service, server.handle()));
    server.await.map_err(|error| error.to_string())?;
    info!("stopped");
    Ok(())
}

/// Puts every question to the build in a file, and prints what `written` makes of the answer.
fn evaluate_file(
    file: &PathBuf,
    weather_folder: Option<&Path>,
    written: impl FnOnce(&Build, &EvaluateReport) -> String,
) -> ExitCode {
    let library = match weather_folder.map(weather_folder::read).transpose() {
        Ok(library) => library.unwrap_or_default(),
        Err(error) => return refuse(&error.to_string()),
    };
    let json = match read(file) {
        Ok(json) => json,
        Err(error) => return refuse(&format!("{} cannot be read: {error}", file.display())),
    };
    let build = match Build::from_json_with(&json, &library) {
        Ok(build) => build,
        Err(refusal) => return refuse(&format!("{} is refused:\n{refusal}", file.display())),
    };
    let report = Evaluate::answer(&build);
    let status = if report.has_violation() { ExitCode::from(VIOLATION) } else { ExitCode::SUCCESS };
    print(&written(&build, &report), status)
}

fn as_indented_json(report: &EvaluateReport) -> String {
    format!("{:#}\n", serde_json::to_value(report).unwrap_or_default())
}

fn as_text(report: &EvaluateReport) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    _ = report.write_text(&mut text);
    text
}

fn read(file: &PathBuf) -> io::Result<Vec<u8>> {
    if file.as_os_str() == "-" {
        let mut json = Vec::new();
        io::stdin().lock().read_to_end(&mut json)?;
        return Ok(json);
    }
    std::fs::read(file)
}

/// Prints to standard output. Whoever closes the pipe has read enough.
fn print(text: &str, status: ExitCode) -> ExitCode {
    let mut out = io::stdout().lock();
    _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    status
}

fn refuse(message: &str) -> ExitCode {
    _ = writeln!(io::stderr().lock(), "wainwright: {message}");
    ExitCode::from(REFUSED)
}
