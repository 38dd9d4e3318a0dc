//! What a circuit's conductor may carry and loses, and the smallest one that does.

use super::conductor::{self, AcWire, BoundBy, DcWire, WireKind};
use super::conductor_temperature::conductor_c;
use super::drop::loop_ohm;
use super::voltages::Loop;
use super::wiring::Conductors;
use super::{
    defaults,
    fault::{self, Withstand},
};
use crate::standards::ampacity::{Column, Material, ROOFTOP_ADDER_K};
use crate::standards::fuse::{self, Family};
use crate::standards::overcurrent;
use crate::standards::resistance::{self, Conduit};
use crate::standards::size::{Areas, Size};

/// Temperature at which resistances count for a fault: the coldest wire lets the most through [°C].
const FAULT_C: f64 = 20.0;
/// Insulation bears a moment at this temperature [°C] (thermoplastic; ICEA P-32-382).
const DAMAGE_C: f64 = 150.0;
/// Conductor temperature when the fault begins [°C].
const RUNNING_C: f64 = 75.0;

/// What a conductor must do.
#[derive(Debug, Clone, Copy)]
pub struct Duty {
    /// Voltage across the circuit [V].
    pub voltage_v: f64,
    /// Is it wired by the code's tables (line voltage, solar), or by that of open air (low voltage)?
    pub by_code: bool,
    /// What flows with everything on [A].
    pub current_a: f64,
    /// What conductor and device must be made for [A].
    pub required_a: f64,
    /// Share of the voltage that may be lost.
    pub most_drop: f64,
    /// Rating of the breaker or fuse [A].
    pub device_a: Option<f64>,
    /// What protects it.
    pub family: Option<Family>,
    /// May the device be the next standard rating above what the conductor carries (NEC 240.4(B))?
    pub may_round_up: bool,
}

/// What a conductor may carry and loses, and which would do.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sizing {
    /// The size in question: the one given, or the smallest that does.
    pub size: Option<Size>,
    /// What it may carry in its place [A].
    pub ampacity_a: Option<f64>,
    /// What it must be made for is held against this: the same before corrections for heat and bundling [A].
    pub uncorrected_a: Option<f64>,
    /// Voltage lost out and back, at 75 °C [V].
    pub drop_v: Option<f64>,
    /// Temperature it settles at [°C]; `None` where that is not known or it burns.
    pub conductor_c: Option<f64>,
    /// Voltage lost at that temperature [V].
    pub expected_drop_v: Option<f64>,
    /// The smallest that does.
    pub smallest: Option<(Size, BoundBy)>,
    /// The smallest by ampacity.
    pub by_ampacity: Option<Size>,
    /// The smallest that the device protects.
    pub by_device: Option<Size>,
    /// The smallest by voltage drop.
    pub by_drop: Option<Size>,
    /// The smallest breaker or fuse that does [A].
    pub device_a: Option<f64>,
    /// Its loop at 75 °C.
    pub way: Loop,
}

/// A conductor whose length is not known: it loses nothing that could be told.
const UNKNOWN: Conductors = Conductors {
    size: None,
    run_m: 0.0,
    insulation_c: None,
    ambient_c: defaults::AMBIENT_C,
    bundled: defaults::BUNDLED,
    material: Material::Copper,
    terminal_c: None,
    areas: Areas::Nominal,
    cord: false,
    sheathed: false,
    engine_space: false,
    sunlit_roof: false,
    chassis_return: false,
    minimum: Size::ALL[0],
};

/// What a conductor of some size may carry in its place [A].
pub fn ampacity_a(wire: &Conductors, size: Size, voltage_v: f64, by_code: bool) -> Option<f64> {
    if by_code {
        ac_wire(wire)?.usable_a(size)
    } else {
        dc_wire(wire, voltage_v)?.usable_a(least(wire, size)?)
    }
}

/// The size, if it may be used: a low-voltage wire of its own is 16 AWG or larger, in a sheath 18 AWG (33 CFR 183.425).
fn least(wire: &Conductors, size: Size) -> Option<Size> {
    Some(size).filter(|size| wire.sheathed || *size >= Size::AWG_16)
}

fn ambient_c(wire: &Conductors) -> f64 {
    wire.ambient_c + if wire.sunlit_roof { ROOFTOP_ADDER_K } else { 0.0 }
}

fn ac_wire(wire: &Conductors) -> Option<AcWire> {
    Some(AcWire {
        material: wire.material,
        insulation_c: wire.insulation_c.unwrap_or(if wire.cord {
            defaults::CORD_INSULATION_C
        } else {
            defaults::AC_INSULATION_C
        }),
        terminal: Column::up_to(wire.terminal_c.unwrap_or(defaults::TERMINAL_C))?,
        ambient_c: ambient_c(wire),
        bundled: wire.bundled,
        kind: if wire.cord { WireKind::Cord } else { WireKind::Cable },
    })
}

/// `None` for aluminum: the table is for copper, and so is the rule (33 CFR 183.425, NEC 552.10(B)).
fn dc_wire(wire: &Conductors, volts: f64) -> Option<DcWire> {
    let copper = wire.material == Material::Copper;
    copper.then(|| DcWire {
        // Terminals that are marked for less must not get hotter than that.
        insulation_c: wire
            .insulation_c
            .unwrap_or(defaults::DC_INSULATION_C)
            .min(wire.terminal_c.unwrap_or(f64::INFINITY)),
        ambient_c: ambient_c(wire),
        engine_space: wire.engine_space,
        bundled: wire.bundled,
        volts,
    })
}

/// Resistance of a conductor of some size at 75 °C [Ω/m]; of marine cable that much more as its area is smaller.
fn ohm_per_m(wire: &Conductors, size: Size) -> Option<f64> {
    let area_mm2 = wire.areas.area_mm2(size)?;
    Some(resistance::dc_75c_ohm_per_m(size, wire.material) * size.area_mm2() / area_mm2)
}

/// Resistance and reactance out and back [Ω], at 75 °C.
fn way(wire: &Conductors, size: Size, by_code: bool) -> Option<Loop> {
    let ohm = loop_ohm(wire.run_m, ohm_per_m(wire, size)?, wire.chassis_return);
    let per_m = if by_code { resistance::reactance_ohm_per_m(size, Conduit::NonMagnetic) } else { None };
    Some(Loop { ohm, reactance_ohm: 2.0 * wire.run_m * per_m.unwrap_or(0.0) })
}

/// Resistance of a conductor's loop when a fault begins [Ω].
pub fn fault_ohm(wire: &Conductors, size: Size) -> Option<f64> {
    let cold = resistance::at_ohm_per_m(ohm_per_m(wire, size)?, wire.material, FAULT_C);
    Some(loop_ohm(wire.run_m, cold, wire.chassis_return))
}

/// How long a conductor bears a fault [s]; `None` beyond the two seconds that the equation is good for.
pub fn withstand_s(wire: &Conductors, size: Size, fault_a: f64) -> Option<f64> {
    let area_mm2 = wire.areas.area_mm2(size)?;
    let metal = match wire.material {
        Material::Copper => Withstand::COPPER,
        Material::Aluminum => Withstand::ALUMINUM,
    };
    Some(fault::withstand_s(area_mm2, fault_a, RUNNING_C, DAMAGE_C, metal))
        .filter(|seconds| *seconds <= fault::WITHSTAND_MOST_S)
}

/// Works a conductor out for its duty.
pub fn sizing(wire: Option<&Conductors>, duty: &Duty) -> Sizing {
    let known = wire.is_some();
    let wire = wire.unwrap_or(&UNKNOWN);
    let device_a = match duty.by_code {
        true => overcurrent::next_rating_a(duty.required_a),
        false => fuse::next_rating_a(duty.family.unwrap_or(Family::Blade), duty.required_a)
            .or_else(|| overcurrent::next_rating_a(duty.required_a)),
    };
    let device = duty.device_a.or(device_a);
    let carries = |size| ampacity_a(wire, size, duty.voltage_v, duty.by_code);
    let (by_ampacity, by_device) = if duty.by_code {
        let ac = ac_wire(wire);
        (
            ac.and_then(|ac| conductor::ac_by_ampacity(&ac, duty.required_a, duty.current_a)),
            ac.and_then(|ac| conductor::ac_by_device(&ac, device?, duty.may_round_up, 1)),
        )
    } else {
        let dc = dc_wire(wire, duty.voltage_v);
        (
            dc.and_then(|dc| conductor::dc_by_ampacity(&dc, duty.required_a)),
            dc.and_then(|dc| conductor::dc_by_device(&dc, device?)),
        )
    };
    let drop_v = |size| Some(duty.current_a * way(wire, size, duty.by_code)?.ohm);
    let by_drop = conductor::by_drop(duty.most_drop * duty.voltage_v, drop_v);
    let least = if duty.by_code || wire.sheathed { wire.minimum } else { wire.minimum.max(Size::AWG_16) };
    let smallest = conductor::smallest(by_ampacity, by_drop, by_device, Some(least));
    let smallest = smallest.and_then(|(size, by)| {
        Some((conductor::made(size, |s| carries(s).is_some() && drop_v(s).is_some())?, by))
    });
    let size = wire.size.or(smallest.map(|(size, _)| size));
    let basis = size.and_then(|size| match duty.by_code {
        true => ac_wire(wire)?.basis(size),
        false => dc_wire(wire, duty.voltage_v)?.basis(size),
    });
    let conductor_c = basis.filter(|_| known).and_then(|basis| {
        conductor_c(duty.current_a, basis.ampacity_a, basis.rating_c, ambient_c(wire), wire.material)
    });
    // Resistance goes with temperature, the chassis apart, which is a small part of it.
    let warmer = conductor_c.map(|conductor_c| resistance::at_ohm_per_m(1.0, wire.material, conductor_c));
    let expected_drop_v = size.and_then(drop_v).zip(warmer).map(|(drop_v, warmer)| drop_v * warmer);
    Sizing {
        conductor_c,
        expected_drop_v,
        size: size.filter(|_| known),
        ampacity_a: size.filter(|_| known).and_then(carries),
        uncorrected_a: size
            .and_then(|size| if duty.by_code { ac_wire(wire)?.uncorrected_a(size) } else { carries(size) }),
        drop_v: size.filter(|_| known).and_then(drop_v),
        smallest,
        by_ampacity,
        by_device,
        by_drop: by_drop.filter(|_| known),
        device_a,
        way: size.and_then(|size| way(wire, size, duty.by_code)).unwrap_or_default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::m_from_ft;

    const WIRE: Conductors = Conductors { size: Some(Size::AWG_12), run_m: 15.0 * 0.3048, ..UNKNOWN };
    const DUTY: Duty = Duty {
        voltage_v: 12.0,
        by_code: false,
        current_a: 20.0,
        required_a: 20.0,
        most_drop: 0.03,
        device_a: None,
        family: Some(Family::Blade),
        may_round_up: false,
    };

    #[test]
    fn the_size_that_is_given_is_judged_and_the_smallest_named_beside_it() {
        let sized = sizing(Some(&WIRE), &DUTY);
        assert_eq!((sized.size, sized.ampacity_a), (Some(Size::AWG_12), Some(45.0)));
        assert_eq!(format!("{:.4}", sized.drop_v.unwrap()), "1.1880");
        assert_eq!(sized.smallest, Some((Size::AWG_6, BoundBy::Drop)));
        assert_eq!(sized.device_a, Some(20.0));
        let chosen = sizing(Some(&Conductors { size: None, ..WIRE }), &DUTY);
        assert_eq!((chosen.size, chosen.smallest), (Some(Size::AWG_6), sized.smallest));
        assert!(chosen.drop_v.unwrap() <= 0.36);
    }

    #[test]
    fn without_a_wire_the_smallest_is_by_current_and_no_drop_is_told() {
        let sized = sizing(None, &DUTY);
        assert_eq!(sized.smallest, Some((Size::AWG_16, BoundBy::Minimum)));
        assert_eq!((sized.drop_v, sized.by_drop, sized.conductor_c), (None, None, None));
    }

    #[test]
    fn marine_cable_loses_more_as_its_area_is_smaller() {
        let marine = sizing(Some(&Conductors { areas: Areas::Marine, ..WIRE }), &DUTY).drop_v.unwrap();
        let awg = sizing(Some(&WIRE), &DUTY).drop_v.unwrap();
        assert!((marine / awg - 6530.0 / 5833.0).abs() < 1e-12);
    }

    #[test]
    fn a_meter_shows_less_than_the_verdict_on_a_cool_wire() {
        let sized = sizing(Some(&WIRE), &DUTY);
        assert!(sized.conductor_c.unwrap() < 60.0);
        assert!(sized.expected_drop_v.unwrap() < sized.drop_v.unwrap());
        let idle = sizing(Some(&WIRE), &Duty { current_a: 0.0, required_a: 0.0, ..DUTY });
        assert_eq!((idle.conductor_c, idle.expected_drop_v), (Some(30.0), Some(0.0)));
    }

    #[test]
    fn terminals_of_less_hold_a_low_voltage_wire_back_and_aluminum_is_not_for_it() {
        let carries = |wire: &Conductors| ampacity_a(wire, Size::AWG_12, 12.0, false);
        assert_eq!(carries(&Conductors { terminal_c: Some(75.0), ..WIRE }), Some(25.0));
        assert_eq!(carries(&Conductors { material: Material::Aluminum, ..WIRE }), None);
        let hot = Conductors { ambient_c: 30.0, sunlit_roof: true, ..WIRE };
        assert!(carries(&hot) < carries(&WIRE));
    }

    #[test]
    fn a_chassis_return_loses_half_and_a_little() {
        let both_ways = sizing(Some(&WIRE), &DUTY).drop_v.unwrap();
        let chassis = sizing(Some(&Conductors { chassis_return: true, ..WIRE }), &DUTY).drop_v.unwrap();
        assert!(chassis > both_ways / 2.0 && chassis < both_ways * 0.6);
    }

    #[test]
    fn no_wire_of_the_table_is_large_enough_for_some() {
        let far = Conductors { run_m: m_from_ft(1000.0), size: None, ..WIRE };
        let sized = sizing(Some(&far), &Duty { current_a: 400.0, required_a: 400.0, ..DUTY });
        assert_eq!((sized.smallest, sized.size, sized.drop_v), (None, None, None));
    }
}
