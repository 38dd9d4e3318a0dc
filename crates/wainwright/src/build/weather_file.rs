//! Weather files in a build: by name, or as text.

use std::borrow::Cow;
use std::sync::Arc;

use serde_json::Value;

use crate::bounds;
use crate::document::schema::Definitions;
use crate::document::{FaultCode, Faults, Kind, Place, echo};
use crate::sky::weather_file::{self, WeatherFile, WeatherLibrary};

/// A weather file of a build.
#[derive(Debug, Clone, PartialEq)]
pub struct GivenFile {
    /// Its name in the folder of weather files. Empty where its text is given.
    pub name: String,
    /// What it holds. In a build without fault it is there.
    pub file: Option<Arc<WeatherFile>>,
}

impl GivenFile {
    /// Looks for the file in a library.
    pub(super) fn find(&mut self, library: &WeatherLibrary, at: &Place, faults: &mut Faults) {
        self.file = library.get(&self.name).cloned();
        if self.file.is_some() || faults.spoil(&at.pointer()) {
            return;
        }
        if library.is_empty() {
            let detail = format!("names {}, and no folder with weather files was given", echo(&self.name));
            faults.add(at, FaultCode::UnknownId, detail);
        } else {
            faults.unknown_name(at, &self.name, "the folder of weather files", library.names());
        }
    }
}

/// The name of a weather file. It is looked for when the whole document was read.
#[derive(Debug, Clone, Copy)]
pub struct FileName;

impl Kind for FileName {
    type Value = GivenFile;

    fn expected(self) -> Cow<'static, str> {
        bounds::NAME.expected()
    }

    fn blank(self) -> GivenFile {
        GivenFile { name: String::new(), file: None }
    }

    fn schema(self, definitions: &mut Definitions) -> Value {
        bounds::NAME.schema(definitions)
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> GivenFile {
        GivenFile { name: bounds::NAME.text(value, at, faults), file: None }
    }
}

/// The text of a weather file, read where it stands: its faults are those of the document.
#[derive(Debug, Clone, Copy)]
pub struct FileText;

impl Kind for FileText {
    type Value = GivenFile;

    fn expected(self) -> Cow<'static, str> {
        "the text of an EPW or TMY3 file".into()
    }

    fn blank(self) -> GivenFile {
        FileName.blank()
    }

    fn schema(self, definitions: &mut Definitions) -> Value {
        bounds::FILE_TEXT.schema(definitions)
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> GivenFile {
        if !bounds::FILE_TEXT.fits(value, at, faults) {
            return self.blank();
        }
        let file = weather_file::read(value)
            .inspect_err(|refusal| {
                for fault in refusal.list() {
                    faults.add(at, FaultCode::WrongType, format!("has a fault at {fault}"));
                }
                if refusal.left_out() > 0 {
                    let detail = format!("has {} more faults", refusal.left_out());
                    faults.add(at, FaultCode::WrongType, detail);
                }
            })
            .ok();
        GivenFile { name: String::new(), file: file.map(Arc::new) }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::Build;
    use super::super::fixture::{fault_with, faults_with};
    use super::*;
    use crate::document::{Fault, Refusal};

    /// A day of invented weather.
    fn day() -> String {
        weather_file::invented_day()
    }

    fn library() -> WeatherLibrary {
        let mut library = WeatherLibrary::default();
        for name in ["heron.epw", "pika.EPW"] {
            library.read(name, day().as_bytes()).unwrap();
        }
        library
    }

    fn named(name: &str, library: &WeatherLibrary) -> Result<Build, Vec<Fault>> {
        let json = json!({"site": {"weather": {"file": name}}}).to_string();
        Build::from_json_with(json.as_bytes(), library).map_err(|refusal| match refusal {
            Refusal::Faults(faults) => faults.list().to_vec(),
            unreadable => panic!("{unreadable}"),
        })
    }

    #[test]
    fn a_named_file_is_shared_and_not_copied() {
        let library = library();
        let build = named("heron.epw", &library).unwrap();
        let file = build.site.as_ref().unwrap().weather.as_ref().unwrap().weather_file().unwrap();
        assert!(Arc::ptr_eq(file, library.get("heron.epw").unwrap()));
    }

    #[test]
    fn a_name_that_is_not_there_is_answered_with_those_that_are() {
        let faults = named("heron.csv", &library()).unwrap_err();
        assert_eq!((faults.len(), faults[0].pointer.as_str()), (1, "/site/weather/file"));
        assert_eq!(
            (faults[0].code, faults[0].known.as_slice()),
            (FaultCode::UnknownId, ["heron.epw", "pika.EPW"].map(String::from).as_slice())
        );
        assert_eq!(
            faults[0].detail,
            "names \"heron.csv\", which is not in the folder of weather files; did you mean heron.epw?"
        );
        let faults = named("heron.epw", &WeatherLibrary::default()).unwrap_err();
        assert_eq!(faults[0].detail, "names \"heron.epw\", and no folder with weather files was given");
        assert_eq!(faults_with(&[("/site", json!({"weather": {"file": "heron.epw"}}))]), faults);
        let long = fault_with(&[("/site", json!({"weather": {"file": "x".repeat(9000)}}))]);
        assert_eq!(long.code, FaultCode::TooLong);
        assert_eq!(fault_with(&[("/site", json!({"weather": {"file": 7}}))]).code, FaultCode::WrongType);
    }

    #[test]
    fn a_file_may_be_given_as_text() {
        let json = json!({"site": {"weather": {"text": day()}}}).to_string();
        let build = Build::from_json(json.as_bytes()).unwrap();
        let weather = build.site.as_ref().unwrap().weather.as_ref().unwrap();
        assert_eq!(weather.weather_file().unwrap().weather.clock.count(), 24);
    }

    #[test]
    fn what_is_wrong_with_the_text_is_said_with_line_and_column() {
        let refused = |text: String| faults_with(&[("/site", json!({"weather": {"text": text}}))]);
        let faults = refused(day().replacen("36.10", "95", 1));
        assert_eq!((faults.len(), faults[0].pointer.as_str()), (1, "/site/weather/text"));
        assert_eq!(
            faults[0].detail,
            "has a fault at line 1, column 7, latitude: must be -90 to 90 degrees, positive north; got \"95\""
        );
        let faults = refused(day().replace("180", "?").replace(",2.5,", ",x,"));
        assert_eq!((faults.len(), faults[20].detail.as_str()), (21, "has 4 more faults"));
        assert!(refused(String::new())[0].detail.ends_with("the file is empty"));
    }
}
