//! Weather files by name.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{FileRefusal, WeatherFile, read_bytes};

/// Endings of the names of weather files, in any case.
const ENDINGS: [&str; 2] = ["epw", "csv"];

/// Weather files that were read, by name. Each is shared by all who use it.
#[derive(Debug, Clone, Default)]
pub struct WeatherLibrary {
    files: BTreeMap<String, Arc<WeatherFile>>,
}

impl WeatherLibrary {
    /// Does a file with this name belong here? Its ending says so.
    pub fn takes(name: &str) -> bool {
        name.rsplit_once('.').is_some_and(|(stem, ending)| {
            !stem.is_empty() && ENDINGS.iter().any(|of| ending.eq_ignore_ascii_case(of))
        })
    }

    /// Adds a file that was read. One of the same name is replaced.
    pub fn insert(&mut self, name: impl Into<String>, file: WeatherFile) {
        self.files.insert(name.into(), Arc::new(file));
    }

    /// Reads a file and adds it.
    ///
    /// # Errors
    ///
    /// What is wrong with it.
    pub fn read(&mut self, name: impl Into<String>, bytes: &[u8]) -> Result<(), FileRefusal> {
        self.insert(name, read_bytes(bytes)?);
        Ok(())
    }

    /// The file of a name.
    pub fn get(&self, name: &str) -> Option<&Arc<WeatherFile>> {
        self.files.get(name)
    }

    /// All names, in alphabetical order.
    pub fn names(&self) -> impl ExactSizeIterator<Item = &str> + Clone {
        self.files.keys().map(String::as_str)
    }

    /// Is there no file?
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }
}
