//! Python environments under the target folder.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::process::{Output, captured};
use crate::workspace;

/// A Python virtual environment.
pub struct Venv {
    folder: PathBuf,
    requirements: PathBuf,
}

impl Venv {
    /// The environment of this name, with the packages of a requirements file under `python`.
    pub fn new(name: &str, requirements: &str) -> Self {
        Self {
            folder: workspace::target().join(name),
            requirements: workspace::root().join("python").join(requirements),
        }
    }

    /// A program of the environment.
    pub fn program(&self, name: &str) -> PathBuf {
        self.folder.join("bin").join(name)
    }

    /// A program of the environment, to be run in the folder `python`.
    pub fn command(&self, name: &str, arguments: &[&str]) -> Command {
        let mut command = Command::new(self.program(name));
        command.args(arguments).current_dir(workspace::root().join("python"));
        command.env("VIRTUAL_ENV", &self.folder).env_remove("CONDA_PREFIX").env_remove("PYTHONHOME");
        command
    }

    /// Makes the environment and installs its packages, unless it already holds them.
    pub fn prepare(&self) -> Output {
        let wanted = match fs::read(&self.requirements) {
            Ok(wanted) => wanted,
            Err(error) => return Err(format!("{}: {error}", self.requirements.display())).into(),
        };
        let installed = self.folder.join("installed.txt");
        if fs::read(&installed).is_ok_and(|there| there == wanted) {
            return Ok(()).into();
        }
        let made = make(&self.folder);
        if !made.success {
            return made;
        }
        let mut pip = self.command("python", &["-m", "pip", "install", "--disable-pip-version-check", "-r"]);
        let done = captured(pip.arg(&self.requirements));
        if !done.success {
            return done;
        }
        fs::write(&installed, wanted).map_err(|error| format!("{}: {error}", installed.display())).into()
    }
}

fn make(folder: &Path) -> Output {
    let probe = captured(Command::new("python3").args(["-c", "import ensurepip, venv"]));
    if !probe.success {
        let advice = "python3 with its module venv is needed; on Debian: apt-get install python3-venv";
        return Err(format!("{advice}\n{}", probe.text)).into();
    }
    captured(Command::new("python3").args(["-m", "venv", "--clear"]).arg(folder))
}
