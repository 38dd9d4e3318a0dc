//! A folder of files that are read once, at the start.

use std::fmt::{self, Display, Formatter};
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Why a folder cannot be used.
#[derive(Debug)]
pub enum FolderError {
    /// The folder or a file in it cannot be read.
    Unreadable(PathBuf, io::Error),
    /// Files in it are refused, each with all that is wrong with it.
    Refused(Vec<(PathBuf, String)>),
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

/// Hands every file of a folder that is wanted to a reader, in alphabetical order. Others are let be, as are folders in it.
///
/// - `most_bytes`  no more bytes of a file are read than show that it has more than these
/// - `wanted`      by its name
/// - `read`        reads the bytes of a file under its name
///
/// # Errors
///
/// The folder or a file in it cannot be read, or files are refused.
pub fn each_file(
    folder: &Path,
    most_bytes: usize,
    wanted: impl Fn(&str) -> bool,
    mut read: impl FnMut(&str, &[u8]) -> Result<(), String>,
) -> Result<(), FolderError> {
    let unreadable = |error| FolderError::Unreadable(folder.to_owned(), error);
    let entries =
        fs::read_dir(folder).map_err(unreadable)?.collect::<io::Result<Vec<_>>>().map_err(unreadable)?;
    let mut paths: Vec<PathBuf> = entries.iter().map(fs::DirEntry::path).collect();
    paths.sort();
    let mut refused = Vec::new();
    for path in paths {
        // A name that is not Unicode could not stand in a request.
        let name = path.file_name().and_then(|name| name.to_str()).filter(|name| wanted(name));
        let Some(name) = name.filter(|_| path.is_file()) else { continue };
        let bytes = bytes(&path, most_bytes).map_err(|error| FolderError::Unreadable(path.clone(), error))?;
        if let Err(refusal) = read(name, &bytes) {
            refused.push((path, refusal));
        }
    }
    if refused.is_empty() { Ok(()) } else { Err(FolderError::Refused(refused)) }
}

fn bytes(path: &Path, most_bytes: usize) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(most_bytes as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}
