//! The folder of weather files that builds may name.

use std::path::Path;

use wainwright::sky::weather_file::{TEXT_MOST_BYTES, WeatherLibrary};

use crate::folder::{FolderError, each_file};

/// Reads every weather file of a folder. What has another ending is let be, as are the folders in it.
///
/// # Errors
///
/// The folder or a file in it cannot be read, or files are refused.
pub fn read(folder: &Path) -> Result<WeatherLibrary, FolderError> {
    let mut library = WeatherLibrary::default();
    each_file(folder, TEXT_MOST_BYTES, WeatherLibrary::takes, |name, bytes| {
        library.read(name, bytes).map_err(|refusal| refusal.to_string())
    })?;
    Ok(library)
}
