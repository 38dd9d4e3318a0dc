//! What in an envelope cannot be together.

use super::{Envelope, Layer, Surface};
use crate::build::{Build, Facing};
use crate::document::{Faults, Place};

/// An envelope's area may be so many times that of the body's outline before it contradicts it: corners and noses.
const OUTLINE_MARGIN: f64 = 1.1;
/// The greatest height of a body [ft]: no law lets a trailer be higher than 14 ft on the road.
const TALLEST_FT: f64 = 12.0;
/// How far the volume may be from that of a box with the same surfaces, as ratios.
const VOLUME_RATIOS: (f64, f64) = (0.3, 1.25);

impl Envelope {
    /// Notes what no field of the envelope can show alone.
    pub fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let surfaces = at.key("surfaces");
        for (id, surface) in self.surfaces() {
            surface.check(&surfaces.key(id), faults);
        }
        // Where an area or a facing could not be read, no sum of them says anything.
        let is_read = !faults.spoil(&surfaces.pointer())
            && self.surfaces().all(|(id, _)| {
                let place = surfaces.key(id);
                let member = |name| !faults.spoil(&place.key(name).pointer());
                member("area_ft2") && member("facing")
            });
        self.check_windows(is_read, at, faults);
        if self.air_changes_per_h.is_some() && self.leakage_in2.is_some() {
            let detail = "cannot stand beside air_changes_per_h; both say how much air comes in".to_owned();
            faults.contradiction(&at.key("leakage_in2"), detail);
        }
        if self.shelter.is_some() && self.leakage_in2.is_none() {
            let detail = "says nothing without leakage_in2; give both".to_owned();
            faults.contradiction_without(&["leakage_in2"], at, &at.key("shelter"), detail);
        }
        if !is_read {
            return;
        }
        self.check_outline(build, at, faults);
        if let (Some(volume_ft3), Some(box_ft3)) = (self.volume_ft3, self.box_ft3()) {
            let ratio = volume_ft3 / box_ft3;
            if !(VOLUME_RATIOS.0..=VOLUME_RATIOS.1).contains(&ratio) {
                let detail = format!(
                    "must be near {}, that of a box with these surfaces; got {volume_ft3}",
                    shown((10.0 * box_ft3).round() / 10.0)
                );
                faults.contradiction(&at.key("volume_ft3"), detail);
            }
        }
    }

    /// No surface is larger than the body it is of.
    fn check_outline(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let Some(bare) = build.trailer.as_ref().map(|trailer| &trailer.bare) else { return };
        let (Some(length_in), Some(width_in)) = (bare.length_in, bare.width_in) else { return };
        if ["length_in", "width_in"].iter().any(|name| faults.spoil(&format!("/trailer/bare/{name}"))) {
            return;
        }
        let (length_ft, width_ft) = (length_in / 12.0, width_in / 12.0);
        for facing in Facing::ALL {
            let (outline_ft2, words) = match facing {
                Facing::Roof | Facing::Floor => {
                    (length_ft * width_ft, format!("the body is {length_in} in long and {width_in} in wide"))
                }
                Facing::Left | Facing::Right => (
                    length_ft * TALLEST_FT,
                    format!("the body is {length_in} in long, and none is {TALLEST_FT} ft high"),
                ),
                Facing::Front | Facing::Rear => (
                    width_ft * TALLEST_FT,
                    format!("the body is {width_in} in wide, and none is {TALLEST_FT} ft high"),
                ),
            };
            let most_ft2 = OUTLINE_MARGIN * outline_ft2;
            let mut sum_ft2 = 0.0;
            for (id, surface) in self.surfaces().filter(|(_, surface)| surface.facing == facing) {
                sum_ft2 += surface.area_ft2;
                if sum_ft2 > most_ft2 {
                    let place = at.key("surfaces");
                    let place = place.key(id);
                    let detail = format!(
                        "must leave all that faces {} at {} or less, since {words}; with {} it is {}",
                        facing.word(),
                        shown(most_ft2),
                        surface.area_ft2,
                        shown(sum_ft2)
                    );
                    faults.contradiction(&place.key("area_ft2"), detail);
                    break;
                }
            }
        }
    }

    /// Every window has a surface around it.
    ///
    /// - `is_read`  could areas and facings of all surfaces be read?
    fn check_windows(&self, is_read: bool, at: &Place, faults: &mut Faults) {
        let windows = at.key("windows");
        let all = self.surfaces.as_ref();
        let mut taken_ft2: Vec<(&str, f64)> = Vec::new();
        for (id, window) in self.windows() {
            let place = windows.key(id);
            if let Some(name) = &window.surface {
                faults.check_reference(&place.key("surface"), name, "/envelope/surfaces", all);
            }
            if !is_read {
                continue;
            }
            let Some((surface_id, surface)) = self.surface_of(window) else {
                if window.surface.is_none() {
                    let word = window.facing.word();
                    let detail =
                        format!("is {word}, where the envelope has no surface; give the surface around it");
                    faults.contradiction(&place.key("facing"), detail);
                }
                continue;
            };
            if surface.facing != window.facing {
                let detail = format!(
                    "must be {}, as its surface {surface_id} is; got {}",
                    surface.facing.word(),
                    window.facing.word()
                );
                faults.contradiction(&place.key("facing"), detail);
            }
            let before_ft2 = match taken_ft2.iter_mut().find(|(other, _)| *other == surface_id) {
                Some((_, sum_ft2)) => {
                    let before_ft2 = *sum_ft2;
                    *sum_ft2 += window.area_ft2;
                    before_ft2
                }
                None => {
                    taken_ft2.push((surface_id, window.area_ft2));
                    0.0
                }
            };
            let left_ft2 = surface.area_ft2 - before_ft2;
            if window.area_ft2 > left_ft2 + ALIKE_FT2 && left_ft2 >= -ALIKE_FT2 {
                let others = if before_ft2 > 0.0 { " that its other windows leave" } else { "" };
                let detail = format!(
                    "must be {} or less, the area of {surface_id}{others}; got {}",
                    shown(left_ft2),
                    window.area_ft2
                );
                faults.contradiction(&place.key("area_ft2"), detail);
            }
        }
    }
}

/// Areas no further apart are the same: sums of decimals are off in their last bits [ft²].
const ALIKE_FT2: f64 = 1e-6;

/// A figure that was worked out, as one would write it: four decimals at most.
fn shown(value: f64) -> String {
    let rounded = format!("{:.4}", value.max(0.0));
    rounded.trim_end_matches('0').trim_end_matches('.').to_owned()
}

impl Surface {
    fn check(&self, at: &Place, faults: &mut Faults) {
        match (&self.r_value, &self.layers) {
            (Some(_), Some(_)) => {
                let detail = "cannot stand beside r_value; both say what it holds back".to_owned();
                faults.contradiction(&at.key("layers"), detail);
            }
            (None, None) => {
                let detail =
                    "says nothing of its insulation; give r_value, or layers from the outside in".to_owned();
                faults.contradiction_without(&["r_value", "layers"], at, at, detail);
            }
            (None, Some(layers)) => {
                let place = at.key("layers");
                if layers.is_empty() {
                    faults.contradiction(&place, "is empty; give a layer, or r_value".to_owned());
                }
                for (index, layer) in layers.iter().enumerate() {
                    layer.check(&place.index(index), faults);
                }
            }
            (Some(_), None) => {}
        }
        if self.posts.is_some() && self.r_value.is_some() {
            let detail =
                "cannot stand beside r_value, which counts them; give layers in its place".to_owned();
            faults.contradiction(&at.key("posts"), detail);
        }
        let beside = [("solar_absorptance", self.solar_absorptance), ("emittance", self.emittance)];
        if self.finish.is_some()
            && let Some((other, _)) = beside.into_iter().find(|(_, given)| given.is_some())
        {
            let detail = format!("cannot stand beside {other}; both say how it takes in sun and sheds heat");
            faults.contradiction(&at.key("finish"), detail);
        }
    }
}

impl Layer {
    fn check(&self, at: &Place, faults: &mut Faults) {
        match (self.material, self.thickness_in, self.r_value) {
            (Some(_), _, Some(_)) => {
                let detail = "cannot stand beside material; both say what it holds back".to_owned();
                faults.contradiction(&at.key("r_value"), detail);
            }
            (Some(_), None, None) => {
                let detail = "is missing; with a material give how thick it is".to_owned();
                faults.contradiction_without(&["thickness_in"], at, &at.key("thickness_in"), detail);
            }
            (None, _, None) => {
                let detail = "says nothing; give material and thickness_in, or r_value".to_owned();
                faults.contradiction_without(&["material", "thickness_in", "r_value"], at, at, detail);
            }
            _ => {}
        }
        if let Some(wood) = self.wood_fraction
            && wood > 0.0
            && self.thickness_in.is_none()
            && self.r_value.is_some()
        {
            let detail = "needs thickness_in, how deep its wood is".to_owned();
            faults.contradiction_without(&["thickness_in"], at, &at.key("wood_fraction"), detail);
        }
    }
}

#[cfg(test)]
#[path = "tests.rs"]
mod tests;
