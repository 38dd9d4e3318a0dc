//! What requests may name: the files of the weather folder and of the catalogue folder.

use std::path::Path;

use serde_json::{Map, Value, json};
use wainwright::NamedFiles;
use wainwright::options::catalogue::{Choose, Group};

use crate::folder::{FolderError, each_file};
use crate::weather_folder;

/// Where the catalogues are listed.
pub const PATH: &str = "/v1/catalogues";

/// Greatest size of a catalogue's file. Common practice; four hundred options have a tenth of it.
const CATALOGUE_MOST_BYTES: usize = 16 * 1024 * 1024;

/// Reads both folders, as far as they are given. A base of a catalogue may name the weather files.
///
/// # Errors
///
/// A folder or a file in it cannot be read, or files are refused: all faults of all files of a folder together.
pub fn read(weather: Option<&Path>, catalogues: Option<&Path>) -> Result<NamedFiles, FolderError> {
    let weather = weather.map(weather_folder::read).transpose()?;
    let mut named_files = NamedFiles::of_weather(weather.unwrap_or_default());
    if let Some(folder) = catalogues {
        let wanted = |name: &str| NamedFiles::catalogue_name(name).is_some();
        each_file(folder, CATALOGUE_MOST_BYTES, wanted, |name, bytes| {
            if bytes.len() > CATALOGUE_MOST_BYTES {
                return Err(format!("it has more than {CATALOGUE_MOST_BYTES} bytes"));
            }
            let name = NamedFiles::catalogue_name(name).unwrap_or(name);
            named_files.read_catalogue(name, bytes).map_err(|refusal| refusal.to_string())
        })?;
    }
    Ok(named_files)
}

/// The catalogues by name: their groups and options, without the patches.
pub fn catalogues(named_files: &NamedFiles) -> Value {
    let of_group = |(id, group): (&String, &Group)| {
        let choose = match group.choose {
            Choose::One => "one",
            Choose::Any => "any",
        };
        let options = group.options.iter().map(|(id, option)| {
            let listed = json!({
                "label": option.label,
                "price_usd": option.price_usd,
                "requires": option.requires.as_deref().unwrap_or_default(),
                "excludes": option.excludes.as_deref().unwrap_or_default(),
            });
            (id.clone(), listed)
        });
        let options: Map<String, Value> = options.collect();
        (id.clone(), json!({"label": group.label, "choose": choose, "options": options}))
    };
    let catalogues = named_files.catalogues.iter().map(|(name, catalogue)| {
        let groups: Map<String, Value> = catalogue.groups.iter().map(of_group).collect();
        let listed = json!({"name": catalogue.name, "has_base": catalogue.base.is_some(), "groups": groups});
        (name.clone(), listed)
    });
    json!({"catalogues": catalogues.collect::<Map<String, Value>>()})
}
