//! What requests may name in place of giving it: weather files and catalogues.

use crate::document::{self, Faults, Keyed, Place, Refusal};
use crate::options::catalogue::{self, Catalogue};
use crate::sky::weather_file::WeatherLibrary;

/// Files that were read before any request, by name.
#[derive(Debug, Clone, Default)]
pub struct NamedFiles {
    /// Weather files, for `site.weather.file` of a build.
    pub weather: WeatherLibrary,
    /// Catalogues of options, in alphabetical order.
    pub catalogues: Keyed<Catalogue>,
}

impl NamedFiles {
    /// Weather files alone.
    pub fn of_weather(weather: WeatherLibrary) -> Self {
        Self { weather, catalogues: Keyed::default() }
    }

    /// The name that a file gives its catalogue: its own without `.json`; none where it ends otherwise.
    pub fn catalogue_name(file: &str) -> Option<&str> {
        let (stem, ending) = file.rsplit_once('.')?;
        (!stem.is_empty() && ending.eq_ignore_ascii_case("json")).then_some(stem)
    }

    /// Reads a catalogue and adds it. One of the same name is replaced.
    ///
    /// # Errors
    ///
    /// All faults of the file together, those of its base among them.
    pub fn read_catalogue(&mut self, name: &str, json: &[u8]) -> Result<(), Refusal> {
        let (catalogue, mut faults) = document::read::<Catalogue>(json)?;
        catalogue::check(&catalogue.groups, &Place::ROOT.key("groups"), &mut faults);
        if let Some(base) = &catalogue.base {
            let (_, of_base) = crate::Build::from_value(base, &self.weather)?;
            faults.append(of_base.under("/base"));
        }
        if !faults.is_empty() {
            return Err(Refusal::Faults(faults.in_document_order(json)));
        }
        self.catalogues.insert(name.to_owned(), catalogue);
        self.catalogues.sort_unstable_keys();
        Ok(())
    }
}

impl Faults {
    /// The faults of a document that stands at a place in another.
    #[must_use]
    fn under(self, place: &str) -> Self {
        self.moved(|pointer| format!("{place}{pointer}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_catalogue_is_named_as_its_file_is() {
        assert_eq!(NamedFiles::catalogue_name("heron.json"), Some("heron"));
        assert_eq!(NamedFiles::catalogue_name("a.b.JSON"), Some("a.b"));
        for other in ["heron", ".json", "heron.txt"] {
            assert_eq!(NamedFiles::catalogue_name(other), None, "{other}");
        }
    }

    #[test]
    fn every_fault_of_a_file_is_named_at_its_place() {
        let json = br#"{"base": {"parts": {"bench": {"mass_lb": -1}}}, "groups": {"seats": {"choose": "all",
            "options": {"soft": {"price_usd": 10, "requires": ["firm"], "pach": {}}}}}}"#;
        let Err(Refusal::Faults(faults)) = NamedFiles::default().read_catalogue("seats", json) else {
            panic!("taken")
        };
        let pointers: Vec<&str> = faults.list().iter().map(|fault| fault.pointer.as_str()).collect();
        let options = "/groups/seats/options/soft";
        let expected = [
            "/base/parts/bench/mass_lb".to_owned(),
            "/groups/seats/choose".to_owned(),
            format!("{options}/requires/0"),
            format!("{options}/pach"),
        ];
        assert_eq!(pointers, expected);
        assert_eq!(faults.list()[3].suggestion.as_deref(), Some("patch"));
    }
}
