//! The loads worked a second time, in pounds and inches, straight from the document.
//!
//! Independent axles are solved between the sorted slopes at which each lifts; the core drops lifted axles one
//! after another.

use serde_json::Value;

use super::reports::{members, number};

/// Mass and first moments: W, Σ w x, Σ w y, Σ w z.
pub type Sums = [f64; 4];

pub fn plus(a: Sums, b: Sums, times: f64) -> Sums {
    std::array::from_fn(|i| a[i] + times * b[i])
}

#[derive(Debug, Clone)]
pub struct Axle {
    pub x: f64,
    pub track: f64,
    pub unsprung: f64,
    pub share: f64,
    pub rate: Option<f64>,
    pub free: f64,
}

#[derive(Debug, Clone)]
pub struct Model {
    pub fixed: Sums,
    pub tanks: Vec<(String, Sums)>,
    /// Cargo with the stand it takes.
    pub cargo: Vec<(String, Sums, Option<String>)>,
    pub axles: Vec<Axle>,
    pub ball: f64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Loads {
    pub gross: f64,
    pub tongue: f64,
    pub axle: Vec<f64>,
    pub left: Vec<f64>,
    pub right: Vec<f64>,
    pub lifted: bool,
}

impl Model {
    pub fn of(document: &Value) -> Self {
        let bare = &document["trailer"]["bare"];
        let default_z = number(bare, "/z_in").unwrap_or(42.0);
        let at = |thing: &Value, mass: f64| -> Sums {
            let x = number(thing, "/x_in").unwrap_or(number(bare, "/x_in").unwrap());
            let y = number(thing, "/y_in").unwrap_or(0.0);
            [mass, mass * x, mass * y, mass * number(thing, "/z_in").unwrap_or(default_z)]
        };
        let mass = |thing: &Value| number(thing, "/mass_lb").unwrap();
        let mut fixed = at(bare, mass(bare));
        for (_, part) in members(document, "/parts") {
            fixed = plus(fixed, at(part, mass(part)), number(part, "/quantity").unwrap_or(1.0));
        }
        let density = |tank: &Value| {
            number(tank, "/density_lb_per_gal").unwrap_or(match tank["fluid"].as_str().unwrap() {
                "propane" => 4.24,
                "gasoline" => 6.1,
                "diesel" => 7.1,
                _ => 8.34,
            })
        };
        let full = |tank: &Value| number(tank, "/capacity_gal").unwrap() * density(tank);
        let tanks = members(document, "/tanks").map(|(id, tank)| (id.to_owned(), at(tank, full(tank))));
        let stand = |cargo: &Value| cargo["stand"].as_str().map(str::to_owned);
        let cargo = members(document, "/cargo").map(|(id, c)| (id.to_owned(), at(c, mass(c)), stand(c)));
        let mut model = Self {
            fixed,
            tanks: tanks.collect(),
            cargo: cargo.collect(),
            axles: Vec::new(),
            ball: number(document, "/trailer/coupler/ball_height_in").unwrap_or(18.0),
        };
        model.add_axles(document);
        model
    }

    fn add_axles(&mut self, document: &Value) {
        let axles: Vec<(&str, &Value)> = members(document, "/trailer/axles").collect();
        let arms = |end: &str| number(document, &format!("/trailer/equalizer/{end}_arm_in"));
        let share = |j: usize| match (arms("front"), arms("rear")) {
            (Some(front), Some(rear)) => {
                let ahead = number(axles[j].1, "/x_in") < number(axles[1 - j].1, "/x_in");
                (if ahead { rear } else { front }) / (front + rear)
            }
            _ => 1.0 / axles.len() as f64,
        };
        let independent = document["trailer"]["suspension"] == "independent";
        for (j, (_, axle)) in axles.iter().enumerate() {
            self.axles.push(Axle {
                x: number(axle, "/x_in").unwrap(),
                track: number(axle, "/track_in").unwrap(),
                unsprung: number(axle, "/unsprung_lb").unwrap_or(0.0),
                share: share(j),
                rate: number(axle, "/rate_lb_per_in").filter(|_| independent),
                free: number(axle, "/unloaded_height_in").unwrap_or(f64::NAN),
            });
        }
        let level = number(document, "/trailer/level/ball_height_in").unwrap_or(self.ball);
        let mean = self.axles.iter().map(|axle| axle.x).sum::<f64>() / axles.len() as f64;
        let each = self.sprung_moment(self.reference(document)) / mean / axles.len() as f64;
        for axle in self.axles.iter_mut().filter(|axle| axle.free.is_nan()) {
            axle.free = level + each / axle.rate.unwrap_or(f64::NAN);
        }
    }

    /// The state in which independent axles carry the same.
    fn reference(&self, document: &Value) -> Sums {
        let named = document.pointer("/trailer/level/state").and_then(Value::as_str);
        let moving = members(document, "/states").filter(|(id, state)| match named {
            Some(named) => *id == named,
            None => state["moving"] != false,
        });
        let sums = moving.map(|(_, state)| self.state(state));
        sums.max_by(|a, b| a[0].total_cmp(&b[0])).unwrap_or(self.fixed)
    }

    /// Everything aboard in a state of the document.
    pub fn state(&self, state: &Value) -> Sums {
        let mut sums = self.fixed;
        for (id, full) in &self.tanks {
            sums = plus(sums, *full, number(&state["fill"], &format!("/{id}")).unwrap_or(0.0));
        }
        for id in state["aboard"].as_array().into_iter().flatten() {
            let (_, cargo, _) = self.cargo.iter().find(|(known, ..)| id == known).unwrap();
            sums = plus(sums, *cargo, 1.0);
        }
        sums
    }

    fn sprung_moment(&self, sums: Sums) -> f64 {
        sums[1] - self.axles.iter().map(|axle| axle.unsprung * axle.x).sum::<f64>()
    }

    /// What the springs of each axle carry.
    fn springs(&self, moment: f64) -> Vec<f64> {
        if self.axles[0].rate.is_none() {
            let group: f64 = self.axles.iter().map(|axle| axle.share * axle.x).sum();
            return self.axles.iter().map(|axle| axle.share * moment / group).collect();
        }
        let lifts_at = |axle: &Axle| (axle.free - self.ball) / axle.x;
        let loads = |slope: f64| {
            self.axles.iter().map(move |a| a.rate.unwrap() * (a.free - self.ball - slope * a.x).max(0.0))
        };
        let moment_at = |slope: f64| loads(slope).zip(&self.axles).map(|(load, a)| load * a.x).sum::<f64>();
        if moment <= 0.0 {
            return vec![0.0; self.axles.len()];
        }
        // The moment falls as the slope rises; between two slopes at which axles lift it is a straight line.
        let mut slopes: Vec<f64> = self.axles.iter().map(lifts_at).collect();
        slopes.sort_by(f64::total_cmp);
        let below = slopes.iter().rev().find(|slope| moment_at(**slope) >= moment);
        let above = slopes.iter().find(|slope| moment_at(**slope) < moment);
        let slope = match (below, above) {
            (Some(low), Some(high)) => {
                let (most, least) = (moment_at(*low), moment_at(*high));
                low + (high - low) * (most - moment) / (most - least)
            }
            (None, Some(high)) => {
                let fall: f64 = self.axles.iter().map(|a| a.rate.unwrap() * a.x * a.x).sum();
                high - (moment - moment_at(*high)) / fall
            }
            _ => unreachable!("at the greatest slope nothing carries"),
        };
        loads(slope).collect()
    }

    pub fn loads(&self, sums: Sums) -> Loads {
        let springs = self.springs(self.sprung_moment(sums));
        let sprung = self.axles[0].rate.is_some();
        let stiffness: Vec<f64> = self
            .axles
            .iter()
            .zip(&springs)
            .map(|(a, load)| match a.rate {
                Some(rate) if *load > 0.0 => rate * a.track * a.track,
                Some(_) => 0.0,
                None => a.share,
            })
            .collect();
        let total: f64 = stiffness.iter().sum();
        let axle: Vec<f64> = springs.iter().zip(&self.axles).map(|(load, a)| load + a.unsprung).collect();
        let roll = |j: usize| {
            if total == 0.0 { 0.0 } else { stiffness[j] / total * sums[2] / self.axles[j].track }
        };
        Loads {
            gross: sums[0],
            tongue: sums[0] - axle.iter().sum::<f64>(),
            left: (0..axle.len()).map(|j| axle[j] / 2.0 - roll(j)).collect(),
            right: (0..axle.len()).map(|j| axle[j] / 2.0 + roll(j)).collect(),
            lifted: sprung && springs.iter().any(|load| *load <= 0.0),
            axle,
        }
    }

    /// Masses aboard at every corner: each tank empty or full, each stand's cargo at home or one aboard.
    pub fn corners(&self) -> Vec<Sums> {
        let mut corners = vec![self.fixed];
        let mut add = |options: &[Sums]| {
            let so_far = corners.len();
            for option in options {
                for i in 0..so_far {
                    corners.push(plus(corners[i], *option, 1.0));
                }
            }
        };
        for (_, full) in &self.tanks {
            add(&[*full]);
        }
        for (i, (_, sums, stand)) in self.cargo.iter().enumerate() {
            if stand.is_none() {
                add(&[*sums]);
            } else if !self.cargo[..i].iter().any(|(.., other)| other == stand) {
                let sharing = self.cargo.iter().filter(|(.., other)| other == stand);
                add(&sharing.map(|(_, sums, _)| *sums).collect::<Vec<_>>());
            }
        }
        corners
    }
}
