//! The battery's ledger: what comes in, what goes out, what is lost, spilled or unmet in every step.
//!
//! Energies are at the battery's bus, counted at its nominal voltage, so that ampere-hours come out right. In every step
//! `sun + other sources − load = stored + lost + spilled − unmet`.

use super::kinetic_battery::{KineticBattery, KineticStep};
use super::lead_acid_charge::charge_factor;

/// Less than this is nothing unmet [Wh].
const NOTHING_WH: f64 = 1e-9;

/// A battery bank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bank {
    /// Energy it holds at its rated discharge [Wh], above 0.
    pub rated_wh: f64,
    /// Voltage that energy is counted at [V], above 0.
    pub nominal_v: f64,
    /// Share of the energy put in that is stored, above 0, to 1.
    pub charge_efficiency: f64,
    /// Share of the energy taken from the store that comes out, above 0, to 1.
    pub discharge_efficiency: f64,
    /// Greatest power it takes [W].
    pub most_charge_w: f64,
    /// Greatest power it gives [W].
    pub most_discharge_w: f64,
    /// Share of the energy in it that it loses by itself in an hour.
    pub self_discharge_per_h: f64,
    /// Time constant with which the charge missing near the top goes in [h]; 0 where it goes in at once.
    pub absorption_h: f64,
    /// Its wells, where a great current leaves less to draw: lead-acid.
    pub wells: Option<KineticBattery>,
    /// State of charge at which loads come back after it was empty; none where they come back at once.
    pub reconnect_soc: Option<f64>,
}

impl Bank {
    /// The same bank in another size.
    ///
    /// - `scale`  how many times as large, above 0
    pub fn scaled(&self, scale: f64) -> Self {
        Self {
            rated_wh: self.rated_wh * scale,
            most_charge_w: self.most_charge_w * scale,
            most_discharge_w: self.most_discharge_w * scale,
            wells: self.wells.map(|wells| KineticBattery { capacity_ah: wells.capacity_ah * scale, ..wells }),
            ..*self
        }
    }

    /// All it can hold [Wh]: with wells more than it is rated for.
    pub fn capacity_wh(&self) -> f64 {
        self.wells.map_or(self.rated_wh, |wells| wells.capacity_ah * self.nominal_v)
    }
}

/// What the battery's temperature leaves of it, step by step.
#[derive(Debug, Clone, Copy)]
pub struct Conditions<'a> {
    /// Share of the rated energy that may be drawn.
    pub usable: &'a [f64],
    /// Share of the greatest charging power that may go in.
    pub acceptance: &'a [f64],
}

/// A source beside the sun.
#[derive(Debug, Clone, Copy)]
pub struct Other<'a> {
    /// Power it can give in each step [W].
    pub available_w: &'a [f64],
    /// State of charge below which it is started; none where it runs whenever it can.
    pub start_soc: Option<f64>,
    /// State of charge at which it is stopped.
    pub stop_soc: f64,
}

/// What flows in every step.
#[derive(Debug, Clone, Copy)]
pub struct Flows<'a> {
    /// Power of the arrays before the controller's limit [W].
    pub sun_w: &'a [f64],
    /// What they are multiplied by: another size of array.
    pub sun_scale: f64,
    /// The controller's limit [W].
    pub most_sun_w: f64,
    /// Load [W].
    pub load_w: &'a [f64],
    /// Sources beside the sun. At most [`MOST_OTHERS`] count.
    pub others: &'a [Other<'a>],
    /// What temperature leaves.
    pub conditions: Conditions<'a>,
}

/// At most so many sources beside the sun: a bit each.
pub const MOST_OTHERS: usize = 20;

/// A battery at an instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Energy in it [Wh].
    pub stored_wh: f64,
    /// The part of it at hand [Wh]; all of it without wells.
    pub at_hand_wh: f64,
    /// Are the loads switched off because it was empty?
    pub is_disconnected: bool,
    /// Which of the other sources run: a bit each.
    pub running: u32,
}

/// What a step came to [Wh].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Step {
    /// What the sun could give.
    pub sun_wh: f64,
    /// What the other sources gave.
    pub other_wh: f64,
    /// What was asked for.
    pub load_wh: f64,
    /// What of the sun nothing could take.
    pub spilled_wh: f64,
    /// What was asked for in vain.
    pub unmet_wh: f64,
    /// What was lost in the battery.
    pub lost_wh: f64,
    /// State of charge at its end: what is missing from full by the rated energy, from 1.
    pub soc: f64,
    /// Is it full at its end? It takes less than [`FULL_PER_H`] of what it could have, or next to nothing is missing.
    pub is_full: bool,
}

/// Charging current by the capacity at which a battery counts as full [1/h].
///
/// Source: end of absorption at 0.01 to 0.02 of the capacity, `common practice`.
pub const FULL_PER_H: f64 = 0.02;
/// State of charge from which it counts as full in any case.
pub const FULL_SOC: f64 = 0.98;

/// A bank, made ready for many steps of one length.
#[derive(Debug, Clone, Copy)]
pub struct Ledger {
    bank: Bank,
    step_h: f64,
    capacity_wh: f64,
    /// A step that takes no more than this near the top ends the charge [Wh].
    tail_wh: f64,
    /// 1 / rated energy, for states of charge.
    per_rated_wh: f64,
    /// 1 / (rated energy × step), for currents by the capacity.
    per_rated_step: f64,
    /// 1 / efficiency, each way: a multiplication where a division would take a third of the time.
    per_charged: f64,
    per_discharged: f64,
    /// Share of what is missing that a step can bring in.
    absorbed: f64,
    charge_wh: f64,
    discharge_wh: f64,
    /// Share of the energy in it that a step leaves of it by itself.
    kept: f64,
    wells: Option<KineticStep>,
}

impl Ledger {
    /// A bank in steps of a length.
    ///
    /// - `step_h`  length of a step [h], above 0
    pub fn new(bank: Bank, step_h: f64) -> Self {
        let absorbed = if bank.absorption_h > 0.0 { -(-step_h / bank.absorption_h).exp_m1() } else { 1.0 };
        Self {
            bank,
            step_h,
            capacity_wh: bank.capacity_wh(),
            tail_wh: FULL_PER_H * bank.rated_wh * step_h,
            per_rated_wh: 1.0 / bank.rated_wh,
            per_rated_step: 1.0 / (bank.rated_wh * step_h),
            per_charged: 1.0 / bank.charge_efficiency,
            per_discharged: 1.0 / bank.discharge_efficiency,
            absorbed,
            charge_wh: bank.most_charge_w * step_h,
            discharge_wh: bank.most_discharge_w * step_h,
            kept: (-bank.self_discharge_per_h * step_h).exp(),
            wells: bank.wells.map(|wells| wells.over(step_h)),
        }
    }

    /// The battery at rest, at a state of charge.
    pub fn at_rest(&self, soc: f64) -> State {
        let stored_wh = (self.capacity_wh - (1.0 - soc) * self.bank.rated_wh).max(0.0);
        let at_hand = self.bank.wells.map_or(1.0, |wells| wells.available_share);
        State { stored_wh, at_hand_wh: at_hand * stored_wh, is_disconnected: false, running: 0 }
    }

    /// State of charge.
    ///
    /// `s = 1 − (full − stored) / rated`, 0 or more: with wells more is stored than is rated, and a battery left to itself for
    /// months loses that too
    pub fn soc(&self, state: &State) -> f64 {
        greater(1.0 - (self.capacity_wh - state.stored_wh) * self.per_rated_wh, 0.0)
    }

    /// Walks through the steps of a range.
    ///
    /// - `state`    the battery before the first of them; after the last when done
    /// - `flows`    what flows
    /// - `steps`    which steps
    /// - `on_step`  called with each and what it came to; where it gives false the walk ends
    #[inline]
    pub fn walk(
        &self,
        state: &mut State,
        flows: &Flows,
        steps: std::ops::Range<usize>,
        on_step: impl FnMut(usize, &Step) -> bool,
    ) {
        // Most batteries have no wells and nothing but the sun: left to itself this case saves a fifth of its time.
        if self.wells.is_none() && self.bank.reconnect_soc.is_none() && flows.others.is_empty() {
            self.walk_as::<true>(state, flows, steps, on_step);
        } else {
            self.walk_as::<false>(state, flows, steps, on_step);
        }
    }

    /// As [`walk`](Self::walk); `PLAIN` leaves out wells, other sources and disconnection.
    ///
    /// A function of its own, for the compiler: what is stored then stays in a register from step to step.
    #[inline(never)]
    fn walk_as<const PLAIN: bool>(
        &self,
        state: &mut State,
        flows: &Flows,
        steps: std::ops::Range<usize>,
        mut on_step: impl FnMut(usize, &Step) -> bool,
    ) {
        let most_sun_wh = flows.most_sun_w * self.step_h;
        let sun_scale = flows.sun_scale * self.step_h;
        let measures = flows.sun_w[steps.clone()]
            .iter()
            .zip(&flows.load_w[steps.clone()])
            .zip(&flows.conditions.usable[steps.clone()])
            .zip(&flows.conditions.acceptance[steps.clone()]);
        // A copy that nothing else can see stays in registers.
        let mut local = *state;
        for (index, (((&sun_w, &load_w), &usable), &acceptance)) in steps.zip(measures) {
            let sun_wh = lesser(sun_w * sun_scale, most_sun_wh);
            let mut other_wh = 0.0;
            if !PLAIN {
                (other_wh, local.running) = self.offered_wh(local, flows.others, index);
            }
            let load_wh = load_w * self.step_h;
            let step = self.step_as::<PLAIN>(&mut local, sun_wh, other_wh, load_wh, usable, acceptance);
            if !on_step(index, &step) {
                break;
            }
        }
        *state = local;
    }

    /// What the sources beside the sun offer in a step [Wh], and which of them run: those that go by the state of charge
    /// are started and stopped.
    fn offered_wh(&self, state: State, others: &[Other], step: usize) -> (f64, u32) {
        let soc = self.soc(&state);
        let (mut offered_wh, mut running) = (0.0, 0);
        for (index, other) in others.iter().take(MOST_OTHERS).enumerate() {
            let bit = 1 << index;
            let runs = match other.start_soc {
                None => true,
                Some(_) if state.running & bit != 0 => soc < other.stop_soc,
                Some(start_soc) => soc < start_soc,
            };
            if runs {
                running |= bit;
                offered_wh += other.available_w[step] * self.step_h;
            }
        }
        (offered_wh, running)
    }

    /// One step.
    ///
    /// - `state`       the battery; moved on
    /// - `sun_wh`      what the sun can give, 0 or more
    /// - `other_wh`    what other sources offer, 0 or more; they give no more than is taken
    /// - `load_wh`     what is asked for, 0 or more
    /// - `usable`      share of the rated energy that may be drawn
    /// - `acceptance`  share of the greatest charging power that may go in
    pub fn step(
        &self,
        state: &mut State,
        sun_wh: f64,
        other_wh: f64,
        load_wh: f64,
        usable: f64,
        acceptance: f64,
    ) -> Step {
        self.step_as::<false>(state, sun_wh, other_wh, load_wh, usable, acceptance)
    }

    #[inline(always)]
    fn step_as<const PLAIN: bool>(
        &self,
        state: &mut State,
        sun_wh: f64,
        other_wh: f64,
        load_wh: f64,
        usable: f64,
        acceptance: f64,
    ) -> Step {
        let mut step = Step { sun_wh, load_wh, ..Step::default() };
        if !PLAIN && state.is_disconnected {
            let reconnect = self.bank.reconnect_soc.is_none_or(|reconnect| self.soc(state) >= reconnect);
            state.is_disconnected = !reconnect;
        }
        let is_cut_off = !PLAIN && state.is_disconnected;
        let asked_wh = if is_cut_off { 0.0 } else { load_wh };
        step.unmet_wh = if is_cut_off { load_wh } else { 0.0 };
        let net_wh = sun_wh - asked_wh;
        let needed_wh = greater(-net_wh, 0.0);
        let at_once_wh = if PLAIN { 0.0 } else { lesser(other_wh, needed_wh) };
        let needed_wh = needed_wh - at_once_wh;
        if needed_wh > 0.0 {
            step.other_wh = at_once_wh;
            let given_wh = self.draw::<PLAIN>(state, needed_wh, usable, &mut step.lost_wh);
            step.unmet_wh += needed_wh - given_wh;
            if !PLAIN && step.unmet_wh > NOTHING_WH && self.bank.reconnect_soc.is_some() {
                state.is_disconnected = true;
            }
        } else {
            let surplus_wh = greater(net_wh, 0.0);
            let spare_wh = other_wh - at_once_wh;
            let taken_wh = self.charge::<PLAIN>(state, surplus_wh + spare_wh, acceptance, &mut step.lost_wh);
            // The sun goes first: it costs nothing.
            let of_sun_wh = lesser(taken_wh, surplus_wh);
            step.spilled_wh = surplus_wh - of_sun_wh;
            step.other_wh = if PLAIN { 0.0 } else { at_once_wh + (taken_wh - of_sun_wh) };
            // Held back by what is missing, not by what is offered or by the cold.
            let willing_wh = lesser(surplus_wh + spare_wh, self.charge_wh * acceptance);
            step.is_full = taken_wh < willing_wh && taken_wh <= self.tail_wh;
        }
        step.lost_wh += (1.0 - self.kept) * state.stored_wh;
        state.stored_wh *= self.kept;
        state.at_hand_wh *= self.kept;
        step.soc = self.soc(state);
        step.is_full |= step.soc >= FULL_SOC;
        step
    }

    /// Takes energy for the bus from the battery, as far as it goes. Returns what reaches the bus [Wh].
    #[inline(always)]
    fn draw<const PLAIN: bool>(
        &self,
        state: &mut State,
        needed_wh: f64,
        usable: f64,
        lost_wh: &mut f64,
    ) -> f64 {
        let before_wh = state.stored_wh;
        // Where the store is below its floor already, it stays there.
        let mut least_wh = lesser(self.capacity_wh - usable * self.bank.rated_wh, before_wh);
        if let Some(wells) = self.wells::<PLAIN>() {
            least_wh = greater(least_wh, before_wh - wells.most_drawn(state.at_hand_wh, before_wh));
        }
        let most_wh = before_wh - least_wh;
        let asked_wh = lesser(needed_wh, self.discharge_wh);
        let wanted_wh = asked_wh * self.per_discharged;
        // What is wanted and there is given to the last bit: no rounding turns it into something unmet.
        let given_wh = if wanted_wh <= most_wh { asked_wh } else { most_wh * self.bank.discharge_efficiency };
        let drawn_wh = lesser(wanted_wh, most_wh);
        // The same as `before − drawn`, sooner: the next step waits for this alone.
        let after_wh = greater(before_wh - wanted_wh, least_wh);
        self.move_on::<PLAIN>(state, drawn_wh, after_wh);
        *lost_wh += drawn_wh - given_wh;
        given_wh
    }

    /// Brings energy from the bus into the battery, as far as it goes in. Returns what is taken from the bus [Wh].
    #[inline(always)]
    fn charge<const PLAIN: bool>(
        &self,
        state: &mut State,
        offered_wh: f64,
        acceptance: f64,
        lost_wh: &mut f64,
    ) -> f64 {
        let willing_wh = lesser(offered_wh, self.charge_wh * acceptance);
        let mut room_wh = (self.capacity_wh - state.stored_wh) * self.absorbed;
        if let Some(wells) = self.wells::<PLAIN>() {
            let fits_wh = wells.most_stored(state.at_hand_wh, state.stored_wh, self.capacity_wh);
            room_wh = lesser(room_wh, fits_wh);
        }
        let efficiency = self.bank.charge_efficiency;
        let arriving_wh = willing_wh * efficiency;
        let taken_wh = if arriving_wh <= room_wh { willing_wh } else { room_wh * self.per_charged };
        let arriving_wh = lesser(arriving_wh, room_wh);
        let stored_wh = match self.wells::<PLAIN>() {
            // Rated at 20 h the capacity is near that at 10 h; the factor is not known better.
            Some(_) => {
                let soc = lesser(self.soc(state), 1.0);
                arriving_wh * charge_factor(soc, taken_wh * self.per_rated_step, 1.0)
            }
            None => arriving_wh,
        };
        self.move_on::<PLAIN>(state, -stored_wh, state.stored_wh + stored_wh);
        *lost_wh += taken_wh - stored_wh;
        taken_wh
    }

    /// Moves the store by an energy drawn, negative when brought in, evenly over the step, to what is left after it.
    #[inline(always)]
    fn move_on<const PLAIN: bool>(&self, state: &mut State, drawn_wh: f64, after_wh: f64) {
        state.at_hand_wh = match self.wells::<PLAIN>() {
            None => after_wh,
            Some(wells) => wells.available_after(state.at_hand_wh, state.stored_wh, drawn_wh),
        };
        state.stored_wh = after_wh;
    }

    /// Its wells, where there are any.
    #[inline(always)]
    fn wells<const PLAIN: bool>(&self) -> Option<&KineticStep> {
        if PLAIN { None } else { self.wells.as_ref() }
    }
}

/// The lesser of two numbers; one instruction where `min` takes care of what is not a number.
#[inline(always)]
pub(super) fn lesser(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// The greater of two numbers, as [`lesser`].
#[inline(always)]
fn greater(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A battery that keeps all that is put in.
    const PLAIN: Bank = Bank {
        rated_wh: 1000.0,
        nominal_v: 12.8,
        charge_efficiency: 1.0,
        discharge_efficiency: 1.0,
        most_charge_w: f64::INFINITY,
        most_discharge_w: f64::INFINITY,
        self_discharge_per_h: 0.0,
        absorption_h: 0.0,
        wells: None,
        reconnect_soc: None,
    };

    /// One hour of a bank from a state of charge: sun, other sources, load.
    fn hour(bank: Bank, soc: f64, sun_wh: f64, other_wh: f64, load_wh: f64) -> (Step, State) {
        let ledger = Ledger::new(bank, 1.0);
        let mut state = ledger.at_rest(soc);
        (ledger.step(&mut state, sun_wh, other_wh, load_wh, 0.9, 1.0), state)
    }

    #[test]
    fn what_does_not_go_in_is_spilled_and_what_is_not_there_is_unmet() {
        let (full, _) = hour(PLAIN, 0.95, 100.0, 0.0, 20.0);
        assert!((full.spilled_wh - 30.0).abs() < 1e-9 && (full.soc - 1.0).abs() < 1e-12);
        let (empty, _) = hour(PLAIN, 0.15, 0.0, 0.0, 80.0);
        assert!((empty.unmet_wh - 30.0).abs() < 1e-9 && (empty.soc - 0.1).abs() < 1e-12);
    }

    #[test]
    fn what_is_lost_on_the_way_in_and_out_is_on_the_books() {
        let bank = Bank { charge_efficiency: 0.9, discharge_efficiency: 0.8, ..PLAIN };
        let (up, _) = hour(bank, 0.5, 100.0, 0.0, 0.0);
        assert!((up.lost_wh - 10.0).abs() < 1e-9 && (up.soc - 0.59).abs() < 1e-12);
        let (down, _) = hour(bank, 0.5, 0.0, 0.0, 80.0);
        assert!((down.lost_wh - 20.0).abs() < 1e-9 && (down.soc - 0.4).abs() < 1e-12);
    }

    #[test]
    fn other_sources_give_what_the_sun_leaves_and_no_more() {
        let (charging, _) = hour(PLAIN, 0.95, 20.0, 500.0, 0.0);
        assert!((charging.other_wh - 30.0).abs() < 1e-9 && charging.spilled_wh == 0.0);
        let (carrying, _) = hour(PLAIN, 0.5, 20.0, 50.0, 100.0);
        assert!((carrying.other_wh - 50.0).abs() < 1e-9 && (carrying.soc - 0.47).abs() < 1e-12);
        let (both, _) = hour(PLAIN, 0.5, 20.0, 200.0, 100.0);
        assert!((both.other_wh - 200.0).abs() < 1e-9 && (both.soc - 0.62).abs() < 1e-12);
    }

    #[test]
    fn a_limit_of_power_holds_in_and_out() {
        let bank = Bank { most_charge_w: 50.0, most_discharge_w: 40.0, ..PLAIN };
        let (up, _) = hour(bank, 0.5, 100.0, 0.0, 0.0);
        assert!((up.spilled_wh - 50.0).abs() < 1e-9);
        let (down, _) = hour(bank, 0.5, 0.0, 0.0, 100.0);
        assert!((down.unmet_wh - 60.0).abs() < 1e-9);
    }

    #[test]
    fn it_is_full_when_it_takes_next_to_nothing_of_what_is_offered() {
        let bank = Bank { absorption_h: 1.5, ..PLAIN };
        // Of 40 Wh missing 19 go in in an hour, a little less than a fiftieth of the bank; of 60 Wh 29.
        assert!(hour(bank, 0.96, 500.0, 0.0, 0.0).0.is_full);
        assert!(!hour(bank, 0.94, 500.0, 0.0, 0.0).0.is_full);
        // With nothing offered, or in the cold, it is as full as its charge says.
        assert!(!hour(bank, 0.96, 0.0, 0.0, 0.0).0.is_full);
        let ledger = Ledger::new(bank, 1.0);
        assert!(!ledger.step(&mut ledger.at_rest(0.96), 500.0, 0.0, 0.0, 0.9, 0.0).is_full);
        assert!(hour(bank, 0.99, 0.0, 0.0, 0.0).0.is_full);
    }

    #[test]
    fn near_the_top_charge_goes_in_more_and_more_slowly() {
        let bank = Bank { absorption_h: 1.0, ..PLAIN };
        let (slow, _) = hour(bank, 0.9, 1000.0, 0.0, 0.0);
        assert!((slow.soc - (1.0 - 0.1 * (-1.0_f64).exp())).abs() < 1e-12);
    }

    #[test]
    fn loads_come_back_when_the_battery_has_recovered() {
        let bank = Bank { reconnect_soc: Some(0.3), ..PLAIN };
        let ledger = Ledger::new(bank, 1.0);
        let mut state = ledger.at_rest(0.15);
        assert!(ledger.step(&mut state, 0.0, 0.0, 80.0, 0.9, 1.0).unmet_wh > 0.0);
        assert!(state.is_disconnected);
        let waiting = ledger.step(&mut state, 150.0, 0.0, 80.0, 0.9, 1.0);
        assert!(waiting.unmet_wh == 80.0 && state.is_disconnected);
        ledger.step(&mut state, 150.0, 0.0, 80.0, 0.9, 1.0);
        assert_eq!(ledger.step(&mut state, 0.0, 0.0, 80.0, 0.9, 1.0).unmet_wh, 0.0);
    }

    #[test]
    fn a_generator_starts_low_and_stops_high() {
        let ledger = Ledger::new(PLAIN, 1.0);
        let mut state = ledger.at_rest(0.35);
        let nothing = [0.0; 20];
        let (load, generator, usable, acceptance) = ([100.0; 20], [300.0; 20], [0.9; 20], [1.0; 20]);
        let others = [Other { available_w: &generator, start_soc: Some(0.3), stop_soc: 0.6 }];
        let conditions = Conditions { usable: &usable, acceptance: &acceptance };
        let flows = Flows {
            sun_w: &nothing,
            sun_scale: 1.0,
            most_sun_w: 0.0,
            load_w: &load,
            others: &others,
            conditions,
        };
        let mut ran = Vec::new();
        ledger.walk(&mut state, &flows, 0..8, |_, step| {
            ran.push(step.other_wh > 0.0);
            true
        });
        assert_eq!(ran, [false, true, true, false, false, false, false, true]);
    }

    #[test]
    fn a_great_current_leaves_part_of_a_lead_acid_battery_behind() {
        let wells = KineticBattery::from_exponent(1000.0 / 12.0, 1.2);
        let bank = Bank { nominal_v: 12.0, wells, ..PLAIN };
        let (fast, state) = hour(bank, 1.0, 0.0, 0.0, 900.0);
        assert!(fast.unmet_wh > 200.0, "{}", fast.unmet_wh);
        let ledger = Ledger::new(bank, 1.0);
        // A rest brings back what was bound.
        let mut rested = state;
        for _ in 0..10 {
            ledger.step(&mut rested, 0.0, 0.0, 0.0, 0.9, 1.0);
        }
        assert!((rested.stored_wh - state.stored_wh).abs() < 1e-9);
        assert!(rested.at_hand_wh > state.at_hand_wh + 100.0);
    }

    /// Banks with and without wells, and steps of sun, other sources and load [Wh].
    fn cases() -> impl Strategy<Value = (Bank, f64, Vec<(f64, f64, f64)>)> {
        let efficiencies = (0.7..=1.0f64, 0.7..=1.0f64);
        let slow = (0.0..=2.0f64, 0.0..=0.01f64);
        let powers = (50.0..500.0f64, 50.0..500.0f64);
        let flows = prop::collection::vec((0.0..400.0f64, 0.0..100.0f64, 0.0..400.0f64), 1..60);
        (efficiencies, slow, powers, prop::option::of(1.0..=1.4f64), 0.0..=1.0f64, flows).prop_map(
            |(efficiencies, slow, powers, exponent, soc, flows)| {
                let bank = Bank {
                    charge_efficiency: efficiencies.0,
                    discharge_efficiency: efficiencies.1,
                    absorption_h: slow.0,
                    self_discharge_per_h: slow.1,
                    most_charge_w: powers.0,
                    most_discharge_w: powers.1,
                    wells: exponent.and_then(|p| KineticBattery::from_exponent(1000.0 / 12.8, p)),
                    ..PLAIN
                };
                (bank, soc, flows)
            },
        )
    }

    proptest! {
        #[test]
        fn the_books_balance_and_the_store_stays_within_its_bounds((bank, soc, flows) in cases(), step_h in 0.25..=1.0f64) {
            let ledger = Ledger::new(bank, step_h);
            let mut state = ledger.at_rest(soc);
            for (sun_wh, other_wh, load_wh) in flows {
                let before_wh = state.stored_wh;
                let step = ledger.step(&mut state, sun_wh, other_wh, load_wh, 0.9, 0.8);
                let came_wh = step.sun_wh + step.other_wh - step.load_wh;
                let went_wh = state.stored_wh - before_wh + step.lost_wh + step.spilled_wh - step.unmet_wh;
                prop_assert!((came_wh - went_wh).abs() < 1e-9, "{step:?}");
                prop_assert!(step.other_wh <= other_wh + 1e-9 && step.lost_wh >= -1e-9, "{step:?}");
                prop_assert!(step.unmet_wh >= 0.0 && step.spilled_wh >= 0.0, "{step:?}");
                prop_assert!((-1e-9..=bank.capacity_wh() + 1e-9).contains(&state.stored_wh), "{state:?}");
                prop_assert!((-1e-9..=state.stored_wh + 1e-9).contains(&state.at_hand_wh), "{state:?}");
            }
        }

        #[test]
        fn a_walk_comes_to_the_same_as_its_steps((bank, soc, flows) in cases()) {
            let ledger = Ledger::new(bank, 1.0);
            let (mut walked, mut stepped) = (ledger.at_rest(soc), ledger.at_rest(soc));
            let count = flows.len();
            let (sun_w, load_w): (Vec<f64>, Vec<f64>) = flows.iter().map(|flow| (flow.0, flow.2)).unzip();
            let conditions = Conditions { usable: &vec![0.9; count], acceptance: &vec![0.8; count] };
            let flows =
                Flows { sun_w: &sun_w, sun_scale: 1.0, most_sun_w: 300.0, load_w: &load_w, others: &[], conditions };
            ledger.walk(&mut walked, &flows, 0..count, |index, step| {
                let sun_wh = sun_w[index].min(300.0);
                assert_eq!(*step, ledger.step(&mut stepped, sun_wh, 0.0, load_w[index], 0.9, 0.8));
                true
            });
            prop_assert_eq!(walked, stepped);
        }
    }
}
