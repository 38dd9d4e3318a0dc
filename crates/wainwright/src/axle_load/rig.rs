//! The running gear and the tow vehicle in SI: what turns masses into loads.

use super::independent::{self, MAX_AXLES, affine_loads, least_moment_kg_m, level_free_height_m, stance};
use super::line::Line;
use super::tow_vehicle::{self, coupled, moment_for_restoration_kg_m};
use super::wheels::{Sides, roll_shares, sides};
use crate::build::{Build, Suspension, Trailer};
use crate::equalized::group_station_m;
use crate::loading::Loading;
use crate::masses::Totals;
use crate::units::{kg, kg_per_m, m};

/// Height of the ball where the build gives no coupler [in]. Common practice.
pub(super) const BALL_HEIGHT_IN: f64 = 18.0;

/// The running gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rig {
    /// Number of axles, 1 to 3.
    pub count: usize,
    /// Station of each axle, in the order of the document [m].
    pub x_m: [f64; MAX_AXLES],
    /// Track of each axle [m].
    pub track_m: [f64; MAX_AXLES],
    /// Unsprung mass of each axle [kg].
    pub unsprung_kg: [f64; MAX_AXLES],
    /// Part of the roll moment that each axle takes.
    pub roll_share: [f64; MAX_AXLES],
    /// Each axle's load, every axle carrying.
    pub axle: [Line; MAX_AXLES],
    /// The tongue load, every axle carrying.
    pub tongue: Line,
    /// Station of the axle group [m]: a kilogram there leaves the tongue as it is.
    pub group_x_m: f64,
    /// Height of the ball's centre [m].
    pub ball_height_m: f64,
    /// Springs of independent axles, where their rates are known.
    pub springs: Option<Springs>,
    /// Axles are independent and no rate says how they share.
    pub shares_unknown: bool,
}

/// Independent axles with known rates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Springs {
    /// The axles.
    pub axles: [independent::Axle; MAX_AXLES],
    /// Least moment of everything aboard at which all of them carry [kg·m].
    pub least_moment_kg_m: f64,
}

/// What the trailer puts on the ball and on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loads {
    /// On the ball [kg]; below 0 it pulls up.
    pub tongue_kg: f64,
    /// On each axle [kg].
    pub axle_kg: [f64; MAX_AXLES],
    /// On the wheels of each axle.
    pub sides: [Sides; MAX_AXLES],
    /// Some axle carries nothing.
    pub lifted: bool,
}

impl Rig {
    /// The running gear of a build; none where it has no axle.
    pub fn of(build: &Build, loading: &Loading) -> Option<Self> {
        let trailer = build.trailer.as_ref()?;
        let count = build.axles().len();
        if count == 0 || count > MAX_AXLES {
            return None;
        }
        let mut rig = Self {
            count,
            x_m: [0.0; MAX_AXLES],
            track_m: [0.0; MAX_AXLES],
            unsprung_kg: [0.0; MAX_AXLES],
            roll_share: [0.0; MAX_AXLES],
            axle: [Line::default(); MAX_AXLES],
            tongue: Line::GROSS,
            group_x_m: 0.0,
            ball_height_m: m(trailer.coupler.as_ref().map_or(BALL_HEIGHT_IN, |c| c.ball_height_in)),
            springs: None,
            shares_unknown: false,
        };
        for (j, (_, axle)) in build.axles().enumerate() {
            rig.x_m[j] = m(axle.x_in);
            rig.track_m[j] = m(axle.track_in);
            rig.unsprung_kg[j] = kg(axle.unsprung_lb.unwrap_or(0.0));
        }
        let sprung = Line { constant: -rig.unsprung_moment_kg_m(), ..Line::MOMENT };
        match rates(build) {
            Some(rates) => rig.spring(build, trailer, loading, rates, sprung),
            None => rig.equalize(trailer, sprung),
        }
        for j in 0..count {
            rig.axle[j] = rig.axle[j].plus(rig.unsprung_kg[j]);
            rig.tongue = rig.tongue - rig.axle[j];
        }
        Some(rig)
    }

    /// Fixed shares: leaf springs with equalizers, or nothing better known.
    fn equalize(&mut self, trailer: &Trailer, sprung: Line) {
        let share = trailer.equalized_shares();
        self.group_x_m = group_station_m(&share[..self.count], &self.x_m[..self.count]);
        for (line, share) in self.axle.iter_mut().zip(share).take(self.count) {
            *line = sprung.times(share / self.group_x_m);
        }
        // Each side's equalizer works alone: the roll moment is shared as the load is.
        self.roll_share = share;
        self.shares_unknown = trailer.suspension == Some(Suspension::Independent) && self.count > 1;
    }

    /// Every axle on its own springs.
    fn spring(
        &mut self,
        build: &Build,
        trailer: &Trailer,
        loading: &Loading,
        rates: [f64; MAX_AXLES],
        sprung: Line,
    ) {
        let level_height_m =
            trailer.level.as_ref().map_or(self.ball_height_m, |level| m(level.ball_height_in));
        let reference = sprung.of(&reference_totals(trailer, loading));
        let mean_x_m = self.x_m.iter().take(self.count).fold(0.0, |sum, x| sum + x) / self.count as f64;
        let each_kg = reference / mean_x_m / self.count as f64;
        let mut axles = [independent::Axle { x_m: 0.0, rate_kg_per_m: 0.0, free_height_m: 0.0 }; MAX_AXLES];
        for (j, (_, axle)) in build.axles().enumerate() {
            let level = level_free_height_m(level_height_m, each_kg, rates[j]);
            axles[j] = independent::Axle {
                x_m: self.x_m[j],
                rate_kg_per_m: rates[j],
                free_height_m: axle.unloaded_height_in.map_or(level, m),
            };
        }
        let used = &axles[..self.count];
        let lines = affine_loads(used, self.ball_height_m);
        let mut per_moment = 0.0;
        for j in 0..self.count {
            self.axle[j] = sprung.times(lines.per_moment_per_m[j]).plus(lines.at_no_moment_kg[j]);
            per_moment += lines.per_moment_per_m[j];
        }
        self.group_x_m = 1.0 / per_moment;
        self.roll_share = self.roll_shares_of(&axles, [true; MAX_AXLES]);
        let least_moment_kg_m = least_moment_kg_m(used, self.ball_height_m) + self.unsprung_moment_kg_m();
        self.springs = Some(Springs { axles, least_moment_kg_m });
    }

    /// Roll shares of the axles that carry.
    fn roll_shares_of(
        &self,
        axles: &[independent::Axle; MAX_AXLES],
        carries: [bool; MAX_AXLES],
    ) -> [f64; MAX_AXLES] {
        let mut rates = [0.0; MAX_AXLES];
        if !carries[..self.count].contains(&true) {
            return rates; // nothing on the ground takes roll
        }
        for j in (0..self.count).filter(|j| carries[*j]) {
            rates[j] = axles[j].rate_kg_per_m;
        }
        roll_shares(rates, self.track_m)
    }

    fn unsprung_moment_kg_m(&self) -> f64 {
        self.x_m.iter().zip(self.unsprung_kg).fold(0.0, |sum, (x, unsprung)| sum + x * unsprung)
    }

    /// The loads with these masses aboard, with lift-off where an axle lifts.
    pub fn loads(&self, totals: &Totals) -> Loads {
        let (mut axle_kg, mut roll_share, mut lifted) = (self.axles_kg(totals), self.roll_share, false);
        if let Some(springs) = &self.springs
            && totals.x_kg_m < springs.least_moment_kg_m
        {
            let sprung_moment = totals.x_kg_m - self.unsprung_moment_kg_m();
            let stance = stance(&springs.axles[..self.count], self.ball_height_m, sprung_moment);
            let mut carries = [false; MAX_AXLES];
            for j in 0..self.count {
                carries[j] = stance.loads_kg[j] > 0.0;
                axle_kg[j] = stance.loads_kg[j] + self.unsprung_kg[j];
            }
            lifted = true;
            roll_share = self.roll_shares_of(&springs.axles, carries);
        }
        let mut wheels = [Sides::default(); MAX_AXLES];
        for j in 0..self.count {
            wheels[j] = sides(axle_kg[j], roll_share[j], totals.y_kg_m, self.track_m[j]);
        }
        Loads { tongue_kg: Self::tongue_kg(totals, axle_kg), axle_kg, sides: wheels, lifted }
    }

    /// Load of each axle with these masses aboard, every axle carrying [kg]; 0 of those that it does not have.
    #[inline]
    pub fn axles_kg(&self, totals: &Totals) -> [f64; MAX_AXLES] {
        self.axle.map(|line| line.of(totals))
    }

    /// Load on the ball [kg]: what the axles leave.
    #[inline]
    pub fn tongue_kg(totals: &Totals, axle_kg: [f64; MAX_AXLES]) -> f64 {
        axle_kg.into_iter().fold(totals.mass_kg, |left, axle| left - axle)
    }

    /// Loads of an axle's wheels, every axle carrying.
    #[inline]
    pub fn sides(&self, totals: &Totals, axle_kg: &[f64; MAX_AXLES], axle: usize) -> Sides {
        sides(axle_kg[axle], self.roll_share[axle], totals.y_kg_m, self.track_m[axle])
    }

    /// The running gear as it stands with these masses aboard: with the lines of the axles that carry.
    #[must_use]
    pub fn standing(&self, totals: &Totals) -> Self {
        match &self.springs {
            Some(springs) if totals.x_kg_m < springs.least_moment_kg_m => {
                let sprung_moment = totals.x_kg_m - self.unsprung_moment_kg_m();
                let stance = stance(&springs.axles[..self.count], self.ball_height_m, sprung_moment);
                self.carrying(springs, stance.loads_kg.map(|load| load > 0.0))
            }
            _ => *self,
        }
    }

    /// The running gear with the lines that hold while these of its axles carry.
    pub(super) fn carrying(&self, springs: &Springs, carries: [bool; MAX_AXLES]) -> Self {
        let mut axles = [independent::Axle { x_m: 0.0, rate_kg_per_m: 0.0, free_height_m: 0.0 }; MAX_AXLES];
        let mut used = 0;
        for j in (0..self.count).filter(|j| carries[*j]) {
            axles[used] = springs.axles[j];
            used += 1;
        }
        let lines = affine_loads(&axles[..used], self.ball_height_m);
        let sprung = Line { constant: -self.unsprung_moment_kg_m(), ..Line::MOMENT };
        let mut standing = Self {
            axle: [Line::default(); MAX_AXLES],
            tongue: Line::GROSS,
            roll_share: self.roll_shares_of(&springs.axles, carries),
            ..*self
        };
        if used > 0 {
            standing.group_x_m = 1.0 / lines.per_moment_per_m.iter().sum::<f64>();
        }
        let mut carried = lines.per_moment_per_m.into_iter().zip(lines.at_no_moment_kg);
        for (j, carries) in carries.into_iter().enumerate().take(self.count) {
            if let Some((per_moment_per_m, at_no_moment_kg)) = carries.then(|| carried.next()).flatten() {
                standing.axle[j] = sprung.times(per_moment_per_m).plus(at_no_moment_kg);
            }
            standing.axle[j] = standing.axle[j].plus(self.unsprung_kg[j]);
            standing.tongue = standing.tongue - standing.axle[j];
        }
        standing
    }

    /// Load of the wheels on one side of an axle, every axle carrying; `right` or left.
    pub fn wheel(&self, axle: usize, right: bool) -> Line {
        let roll = self.roll_share[axle] / self.track_m[axle];
        let half = self.axle[axle].times(0.5);
        if right { half + Line::SIDE_MOMENT.times(roll) } else { half - Line::SIDE_MOMENT.times(roll) }
    }

    /// Load on the jack with its foot at `jack_x_m`, unhitched and level: `J = T L / (L - x_j)`.
    pub fn jack(&self, jack_x_m: f64) -> Line {
        self.tongue.times(self.group_x_m / (self.group_x_m - jack_x_m))
    }

    /// The axle farthest to the rear [m].
    pub fn last_axle_x_m(&self) -> f64 {
        self.x_m.iter().take(self.count).copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// Part of a moment on the axle group that each axle takes.
    pub fn moment_share(&self, axle: usize) -> f64 {
        self.axle[axle].x * self.group_x_m
    }
}

/// Rates of independent axles [kg/m], where every one is known.
fn rates(build: &Build) -> Option<[f64; MAX_AXLES]> {
    if build.trailer.as_ref()?.suspension != Some(Suspension::Independent) {
        return None;
    }
    let mut rates = [0.0; MAX_AXLES];
    for (rate, (_, axle)) in rates.iter_mut().zip(build.axles()) {
        *rate = kg_per_m(axle.rate_lb_per_in?);
    }
    Some(rates)
}

/// Index of the state in which independent axles carry the same: the one named, or the heaviest that moves.
pub(super) fn reference_state(trailer: &Trailer, loading: &Loading) -> Option<usize> {
    let named = trailer.level.as_ref().and_then(|level| level.state.as_deref());
    if let Some(named) = named {
        return loading.states.iter().position(|state| state.id == named);
    }
    let mass = |index: &usize| state_totals(loading, *index).mass_kg;
    let moving = (0..loading.states.len()).filter(|index| loading.states[*index].moving);
    moving.max_by(|a, b| mass(a).total_cmp(&mass(b)))
}

fn reference_totals(trailer: &Trailer, loading: &Loading) -> Totals {
    reference_state(trailer, loading).map_or_else(|| loading.fixed(), |index| state_totals(loading, index))
}

/// Everything aboard in a state.
pub(super) fn state_totals(loading: &Loading, index: usize) -> Totals {
    let state = &loading.states[index];
    loading.fixed() + loading.fluids_in(state) + loading.cargo_in(state)
}

/// The tow vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tow {
    /// Its geometry.
    pub geometry: tow_vehicle::TowVehicle,
    /// Front axle, not coupled [kg].
    pub front_kg: f64,
    /// Rear axle, not coupled, with the hitch [kg].
    pub rear_kg: f64,
    /// Changes of load for each kilogram of tongue load, without bars.
    pub plain: tow_vehicle::Coupled,
    /// The same with the bars set as the build says; none without bars.
    pub with_bars: Option<tow_vehicle::Coupled>,
    /// Moment of the bars for each kilogram of tongue load [m].
    pub bar_moment_m: f64,
}

impl Tow {
    /// The tow vehicle of a build, if it has one.
    pub fn of(build: &Build, group_x_m: f64) -> Option<Self> {
        let tow = build.tow_vehicle.as_ref()?;
        let geometry =
            tow_vehicle::TowVehicle { wheelbase_m: m(tow.wheelbase_in), overhang_m: m(tow.ball_overhang_in) };
        let restoration = tow.front_load_restoration.unwrap_or(0.0);
        let bar_moment_m = moment_for_restoration_kg_m(geometry, 1.0, restoration, group_x_m);
        Some(Self {
            geometry,
            front_kg: kg(tow.front_axle_lb),
            rear_kg: kg(tow.rear_axle_lb + tow.hitch_lb.unwrap_or(0.0)),
            plain: coupled(geometry, 1.0, 0.0, group_x_m),
            with_bars: (restoration > 0.0).then(|| coupled(geometry, 1.0, bar_moment_m, group_x_m)),
            bar_moment_m,
        })
    }

    /// As it is driven: with bars where there are bars.
    pub fn driven(&self) -> tow_vehicle::Coupled {
        self.with_bars.unwrap_or(self.plain)
    }

    /// The tow vehicle alone [kg].
    pub fn mass_kg(&self) -> f64 {
        self.front_kg + self.rear_kg
    }
}
