//! The folder of weather files that builds may name.

use std::fmt::{self, Display, Formatter};
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use wainwright::sky::weather_file::{FileRefusal, TEXT_MOST_BYTES, WeatherLibrary};

/// Why a folder of weather files cannot be used.
#[derive(Debug)]
pub enum FolderError {
    /// The folder or a file in it cannot be read.
    Unreadable(PathBuf, io::Error),
    /// Files in it are refused, each with what is wrong with it.
    Refused(Vec<(PathBuf, FileRefusal)>),
}

impl Display for FolderError {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        match self {
            Self::Unreadable(path, error) => write!(f, "{} cannot be read: {error}", path.display()),
            Self::Refused(files) => files.iter().enumerate().try_for_each(|(i, (path, refusal))| {
                let separator = if i == 0 { "" } else { "\n" };
                write!(f, "{separator}{} is refused:\n{refusal}", path.display())
            }),
        }
    }
}

impl std::error::Error for FolderError {}

/// Reads every weather file of a folder. What has another ending is let be, as are the folders in it.
///
/// # Errors
///
/// The folder or a file in it cannot be read, or files are refused.
pub fn read(folder: &Path) -> Result<WeatherLibrary, FolderError> {
    let unreadable = |error| FolderError::Unreadable(folder.to_owned(), error);
    let entries =
        fs::read_dir(folder).map_err(unreadable)?.collect::<io::Result<Vec<_>>>().map_err(unreadable)?;
    let mut paths: Vec<PathBuf> = entries.iter().map(fs::DirEntry::path).collect();
    paths.sort();
    let mut library = WeatherLibrary::default();
    let mut refused = Vec::new();
    for path in paths {
        // A name that is not Unicode could not stand in a build.
        let name = path.file_name().and_then(|name| name.to_str()).filter(|name| WeatherLibrary::takes(name));
        let Some(name) = name.filter(|_| path.is_file()) else { continue };
        let bytes = bytes(&path).map_err(|error| FolderError::Unreadable(path.clone(), error))?;
        if let Err(refusal) = library.read(name, &bytes) {
            refused.push((path, refusal));
        }
    }
    if refused.is_empty() { Ok(library) } else { Err(FolderError::Refused(refused)) }
}

/// The bytes of a file, and no more of them than show that it is too long.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(TEXT_MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}
