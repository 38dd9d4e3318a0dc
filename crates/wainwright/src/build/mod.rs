//! The build document: one file a section.
//!
//! Every question reads from the same document; what it does not read may still be there. To add a section:
//! a file here with its [`record!`](crate::document) declaration and its `check`, and one line in [`Build`].

mod battery;
mod bay;
mod cargo;
mod charging;
mod climate;
mod draw;
mod electrical;
mod envelope;
mod facing;
#[cfg(test)]
mod fixture;
mod occupancy;
mod parts;
mod place_name;
mod road;
mod schedule;
mod site;
mod solar;
mod states;
mod stay;
mod tanks;
mod tow_vehicle;
mod trailer;
mod weather_file;

pub use battery::{Battery, Chemistry, blocks};
pub use bay::Bay;
pub use cargo::{Attachment, Cargo, Pull, Side, TieDown, Toy};
pub use charging::{Charging, ChargingKind};
pub use climate::{Climate, ClimateDetail, CoolerKind, Cooling, Fan, HeaterKind, Heating, OpenWindows};
pub use draw::{Charger, Draw, LoadKind, Refrigerator};
pub use electrical::{Circuit, Electrical, Leg, Mode, PartLoad, Source, SourceKind, Wire};
pub use envelope::{Envelope, Layer, Posts, Shelter, StandingLoad, Surface, Window};
pub use facing::Facing;
pub use occupancy::{Cooking, Occupancy};
pub use parts::Part;
pub use road::Road;
pub use schedule::{Schedule, Weekday};
pub use site::{ClearSky, DesignDay, DesignNight, Hourly, Monthly, Site, WeatherForm};
pub use solar::{Controller, ControllerKind, Mount, Solar, SolarArray};
pub use states::{Scale, State};
pub use stay::{Detail, Stay};
pub use tanks::{Fluid, Tank};
pub use tow_vehicle::TowVehicle;
pub use trailer::{
    Axle, Bare, Chains, Coupler, Equalizer, Floor, Jack, Level, Suspension, TireType, Trailer,
};
pub use weather_file::GivenFile;

use serde_json::Value;

use crate::bounds;
use crate::document::{self, FaultCode, Faults, Keyed, Map, Place, Record, Refusal, Section, record};
use crate::sky::weather_file::WeatherLibrary;

record! {
    /// One trailer and everything in it, as every question reads it. A question needs the sections it reads;
    /// others may be present.
    pub struct Build: "a build" {
        /// What the build is called, for people.
        optional name: String = bounds::NAME, "Heron";
        /// The bare trailer and its running gear.
        optional trailer: Trailer = Section::of();
        /// The tow vehicle with its occupants and its own cargo, not coupled.
        optional tow_vehicle: TowVehicle = Section::of();
        /// Everything fixed that is added to the bare trailer.
        optional parts: Keyed<Part> = Map { of: Section::of(), most: bounds::MOST_PARTS, example_id: "galley" };
        /// Everything that holds a liquid.
        optional tanks: Keyed<Tank> = Map { of: Section::of(), most: bounds::MOST_ENTRIES, example_id: "fresh" };
        /// Everything that may be aboard or left at home.
        optional cargo: Keyed<Cargo> = Map { of: Section::of(), most: bounds::MOST_ENTRIES, example_id: "atv" };
        /// Loading states to look at. Left out, a usual set is made from the tanks and the cargo.
        optional states: Keyed<State> = Map { of: Section::of(), most: bounds::MOST_ENTRIES, example_id: "outbound" };
        /// The bay that the toy rides in.
        optional bay: Bay = Section::of();
        /// The braking, grade, side force and speed that road loads are worked out for.
        optional road: Road = Section::of();
        /// Supplies, circuits and supply modes.
        optional electrical: Electrical = Section::of();
        /// The house battery.
        optional battery: Battery = Section::of();
        /// Solar arrays and their controller.
        optional solar: Solar = Section::of();
        /// Surfaces and windows of the box, and how tight it is.
        optional envelope: Envelope = Section::of();
        /// Air conditioner, heater and fan.
        optional climate: Climate = Section::of();
        /// Who is in the box, and when.
        optional occupancy: Occupancy = Section::of();
        /// Where it stands, which way it faces, and the weather there.
        optional site: Site = Section::of();
        /// A stay without shore power, and what is asked of battery and sun.
        optional stay: Stay = Section::of();
    }
}

impl Build {
    /// Reads and checks a build.
    ///
    /// # Errors
    ///
    /// All faults of the document together, each with its JSON Pointer; or the place where the text stops
    /// being JSON.
    ///
    /// # Example
    ///
    /// ```
    /// use wainwright::Build;
    /// let build = Build::from_json(br#"{"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}}"#).unwrap();
    /// assert_eq!(build.trailer.unwrap().gvwr_lb, 7000.0);
    /// ```
    pub fn from_json(json: &[u8]) -> Result<Self, Refusal> {
        Self::from_json_with(json, &WeatherLibrary::default())
    }

    /// Reads and checks a build that may name weather files.
    ///
    /// # Errors
    ///
    /// As for [`Build::from_json`]. A file that is not in the library is a fault.
    pub fn from_json_with(json: &[u8], library: &WeatherLibrary) -> Result<Self, Refusal> {
        let (build, faults) = document::read::<Self>(json)?;
        let (build, faults) = build.checked(faults, library);
        if faults.is_empty() { Ok(build) } else { Err(Refusal::Faults(faults.in_document_order(json))) }
    }

    /// Reads and checks a build from JSON that was read before. A build with faults has blanks in it and must not be used.
    ///
    /// # Errors
    ///
    /// It is nested too deep.
    pub(crate) fn from_value(json: &Value, library: &WeatherLibrary) -> Result<(Self, Faults), Refusal> {
        let (build, faults) = document::read_value::<Self>(json)?;
        Ok(build.checked(faults, library))
    }

    /// The build with its weather file found, and everything held against everything else.
    fn checked(mut self, mut faults: Faults, library: &WeatherLibrary) -> (Self, Faults) {
        if let Some(weather) = self.site.as_mut().and_then(|site| site.weather.as_mut()) {
            weather.find_file(library, &Place::ROOT.key("site").key("weather"), &mut faults);
        }
        self.check(&mut faults);
        (self, faults)
    }

    /// Notes what no field can show alone: names that refer to nothing, members that contradict one another.
    pub(crate) fn check(&self, faults: &mut Faults) {
        let root = Place::ROOT;
        if let Some(trailer) = &self.trailer {
            trailer.check(self, &root.key("trailer"), faults);
        }
        for (id, state) in self.states() {
            state.check(self, &root.key("states").key(id), faults);
        }
        if let Some(bay) = &self.bay {
            bay.check(&root.key("bay"), faults);
        }
        if let Some(electrical) = &self.electrical {
            electrical.check(&root.key("electrical"), faults);
        }
        if let Some(solar) = &self.solar {
            solar.check(&root.key("solar"), faults);
        }
        if let Some(battery) = &self.battery {
            battery.check(self, &root.key("battery"), faults);
        }
        if let Some(site) = &self.site {
            site.check(&root.key("site"), faults);
        }
        if let Some(stay) = &self.stay {
            stay.check(self, &root.key("stay"), faults);
        }
        if let Some(envelope) = &self.envelope {
            envelope.check(self, &root.key("envelope"), faults);
        }
        if let Some(climate) = &self.climate {
            climate.check(&root.key("climate"), faults);
        }
        if let Some(occupancy) = &self.occupancy {
            occupancy.check(&root.key("occupancy"), faults);
        }
        let draws = self.draws().count();
        if draws > bounds::MOST_DRAWS {
            let most = bounds::MOST_DRAWS;
            let detail = format!("must have {most} parts or fewer that draw power; {draws} do");
            if let Some(fault) = faults.add(&root.key("parts"), FaultCode::TooMany, detail) {
                fault.maximum = Some(most as f64);
            }
        }
        for (id, draw) in self.draws() {
            draw.check(self, &root.key("parts").key(id).key("electrical"), faults);
        }
    }

    /// Position of what a pointer names: its section, then its entry where the section is a map.
    pub(crate) fn position(&self, pointer: &str) -> (usize, usize) {
        let mut tokens = pointer.split('/').skip(1);
        let (section, id) = (tokens.next().unwrap_or_default(), tokens.next().unwrap_or_default());
        let entry = match section {
            "electrical" => self.position_in_electrical(id, tokens.next().unwrap_or_default()),
            "envelope" => self.position_in_envelope(id, tokens.next().unwrap_or_default()),
            "solar" => index_of(
                self.solar.as_ref().and_then(|s| s.arrays.as_ref()),
                tokens.next().unwrap_or_default(),
            ),
            "parts" => index_of(self.parts.as_ref(), id),
            "tanks" => index_of(self.tanks.as_ref(), id),
            "cargo" => index_of(self.cargo.as_ref(), id),
            "states" => index_of(self.states.as_ref(), id),
            _ => 0,
        };
        (<Self as Record>::FIELDS.iter().position(|field| *field == section).unwrap_or_default(), entry)
    }

    /// Position of an entry of one of the maps in `electrical`: map by map.
    fn position_in_electrical(&self, map: &str, id: &str) -> usize {
        let Some(electrical) = &self.electrical else { return 0 };
        let maps = <Electrical as Record>::FIELDS;
        let place = maps.iter().position(|field| *field == map).unwrap_or_default();
        let entry = match map {
            "sources" => index_of(electrical.sources.as_ref(), id),
            "circuits" => index_of(electrical.circuits.as_ref(), id),
            "modes" => index_of(electrical.modes.as_ref(), id),
            _ => 0,
        };
        place * bounds::MOST_CIRCUITS + entry
    }

    /// Position of a surface or a window: the surfaces first.
    fn position_in_envelope(&self, map: &str, id: &str) -> usize {
        let Some(envelope) = &self.envelope else { return 0 };
        match map {
            "surfaces" => index_of(envelope.surfaces.as_ref(), id),
            "windows" => bounds::MOST_SURFACES + index_of(envelope.windows.as_ref(), id),
            _ => 2 * bounds::MOST_SURFACES,
        }
    }

    /// The parts, in the order of the document.
    pub fn parts(&self) -> impl ExactSizeIterator<Item = (&str, &Part)> + Clone {
        entries(self.parts.as_ref())
    }

    /// The parts that draw power, in the order of the document.
    pub fn draws(&self) -> impl Iterator<Item = (&str, &Draw)> + Clone {
        self.parts().filter_map(|(id, part)| Some((id, part.electrical.as_ref()?)))
    }

    /// The sources, in the order of the document.
    pub fn sources(&self) -> impl ExactSizeIterator<Item = (&str, &Source)> + Clone {
        entries(self.electrical.as_ref().and_then(|electrical| electrical.sources.as_ref()))
    }

    /// The circuits, in the order of the document.
    pub fn circuits(&self) -> impl ExactSizeIterator<Item = (&str, &Circuit)> + Clone {
        entries(self.electrical.as_ref().and_then(|electrical| electrical.circuits.as_ref()))
    }

    /// The tanks, in the order of the document.
    pub fn tanks(&self) -> impl ExactSizeIterator<Item = (&str, &Tank)> + Clone {
        entries(self.tanks.as_ref())
    }

    /// The cargo, in the order of the document.
    pub fn cargo(&self) -> impl ExactSizeIterator<Item = (&str, &Cargo)> + Clone {
        entries(self.cargo.as_ref())
    }

    /// The states the document gives, in its order.
    pub fn states(&self) -> impl ExactSizeIterator<Item = (&str, &State)> + Clone {
        entries(self.states.as_ref())
    }

    /// The axles, in the order of the document.
    pub fn axles(&self) -> impl ExactSizeIterator<Item = (&str, &Axle)> + Clone {
        entries(self.trailer.as_ref().and_then(|t| t.axles.as_ref()))
    }
}

fn entries<T>(map: Option<&Keyed<T>>) -> impl ExactSizeIterator<Item = (&str, &T)> + Clone {
    static_or(map).iter().map(|(id, entry)| (id.as_str(), entry))
}

fn index_of<T>(map: Option<&Keyed<T>>, id: &str) -> usize {
    map.and_then(|map| map.get_index_of(id)).unwrap_or_default()
}

/// The entries of a map, or none.
fn static_or<T>(map: Option<&Keyed<T>>) -> &indexmap::map::Slice<String, T> {
    map.map_or(indexmap::map::Slice::new(), |m| m.as_slice())
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::fixture::{fault_with, faults_with, good};
    use super::*;

    #[test]
    fn the_good_build_has_no_fault() {
        assert_eq!(faults_with(&[]), []);
    }

    #[test]
    fn an_empty_object_is_a_build() {
        assert!(Build::from_json(b"{}").is_ok());
    }

    #[test]
    fn faults_of_fields_and_between_fields_stand_in_the_order_of_the_document() {
        let faults = faults_with(&[
            ("/trailer/jack/x_in", json!(200)),
            ("/parts/bench/mass_lb", json!(-1)),
            ("/states/loaded/aboard", json!(["kayak"])),
            ("/bay/ramp_length_in", json!("long")),
            ("/zzz", json!(1)),
        ]);
        let pointers: Vec<_> = faults.iter().map(|fault| fault.pointer.as_str()).collect();
        let expected = [
            "/trailer/jack/x_in",
            "/parts/bench/mass_lb",
            "/states/loaded/aboard/0",
            "/bay/ramp_length_in",
            "/zzz",
        ];
        assert_eq!(pointers, expected);
    }

    #[test]
    fn what_refers_into_a_section_that_could_not_be_read_is_not_at_fault() {
        for section in
            ["/tanks", "/cargo", "/parts", "/states", "/trailer/axles", "/trailer/suspension", "/bay"]
        {
            assert_eq!(fault_with(&[(section, json!([]))]).pointer, section);
        }
        assert_eq!(fault_with(&[("/trailer/suspension", json!("independant"))]).code, FaultCode::NotOneOf);
        assert_eq!(fault_with(&[("/cargo/trail_bike/stand", json!(7))]).pointer, "/cargo/trail_bike/stand");
    }

    #[test]
    fn ten_thousand_parts_are_accepted_and_one_more_is_not() {
        let with = |count: usize| {
            let parts: Vec<String> = (0..count).map(|i| format!(r#""p{i}":{{"mass_lb":1}}"#)).collect();
            Build::from_json(format!(r#"{{"parts":{{{}}}}}"#, parts.join(",")).as_bytes())
        };
        assert_eq!(with(10_000).unwrap().parts().len(), 10_000);
        let Err(Refusal::Faults(faults)) = with(10_001) else { panic!("not refused") };
        let fault = &faults.list()[0];
        assert_eq!((faults.count(), fault.pointer.as_str(), fault.code), (1, "/parts", FaultCode::TooMany));
        assert_eq!(
            (fault.detail.as_str(), fault.maximum),
            ("must have 10000 entries or fewer; it has more", Some(1e4))
        );
    }

    #[test]
    fn a_thousand_parts_may_draw_power_and_one_more_may_not() {
        let with = |count: usize| {
            let draw = r#"{"mass_lb":1,"electrical":{"circuit":"c","power_w":1}}"#;
            let parts: Vec<String> = (0..count).map(|i| format!(r#""p{i}":{draw}"#)).collect();
            Build::from_json(format!(r#"{{"parts":{{{}}}}}"#, parts.join(",")).as_bytes())
        };
        assert!(with(1_000).is_ok());
        let Err(Refusal::Faults(faults)) = with(1_001) else { panic!("not refused") };
        let fault = &faults.list()[0];
        assert_eq!((faults.count(), fault.pointer.as_str(), fault.code), (1, "/parts", FaultCode::TooMany));
        assert_eq!(fault.detail, "must have 1000 parts or fewer that draw power; 1001 do");
    }

    #[test]
    fn a_thousand_states_that_name_parts_in_vain_are_answered_at_once() {
        let parts: Vec<String> =
            (0..5_000).map(|i| format!(r#""part_number_{i}":{{"mass_lb":1}}"#)).collect();
        let names: Vec<String> = (0..100).map(|i| format!(r#""prat_nubmer_{i}""#)).collect();
        let state = format!(r#"{{"scale":{{"total_lb":1,"not_installed":[{}]}}}}"#, names.join(","));
        let states: Vec<String> = (0..1_000).map(|i| format!(r#""s{i}":{state}"#)).collect();
        let json = format!(r#"{{"parts":{{{}}},"states":{{{}}}}}"#, parts.join(","), states.join(","));
        let start = std::time::Instant::now();
        let Err(Refusal::Faults(faults)) = Build::from_json(json.as_bytes()) else { panic!("not refused") };
        assert_eq!(faults.count(), 100_000);
        assert!(start.elapsed().as_secs() < 30, "{:?}", start.elapsed());
    }

    #[test]
    fn null_for_a_whole_section_is_a_section_left_out() {
        assert_eq!(faults_with(&[("/bay", json!(null)), ("/parts/bench/x_in", json!(null))]), []);
        assert_eq!(fault_with(&[("/trailer/bare", json!(null))]).detail, "is missing; give an object");
    }

    #[test]
    fn sections_keep_the_order_of_the_document() {
        let build = Build::from_json(good().to_string().as_bytes()).unwrap();
        assert_eq!(build.cargo().map(|(id, _)| id).collect::<Vec<_>>(), ["trail_bike", "quad", "gear"]);
        assert_eq!(build.axles().len(), 2);
    }
}
