//! Currents of single-phase motors, by the code's tables.

use std::sync::LazyLock;

use super::table::rows;
use crate::document::Options;
use crate::report::exceeds;

/// Currents at 115 V and at 230 V [A].
type AtVoltages = [Option<f64>; 2];

/// A rated power with its currents.
struct Motor {
    horsepower: f64,
    full_load_a: AtVoltages,
    locked_rotor_a: AtVoltages,
}

static MOTORS: LazyLock<Vec<Motor>> = LazyLock::new(|| {
    rows(include_str!("../../data/motor_current_430_248.csv"))
        .filter_map(|row| {
            Some(Motor {
                horsepower: fraction(row.text("hp"))?,
                full_load_a: ["flc_115", "flc_230"].map(|column| row.number(column)),
                locked_rotor_a: ["lra_115", "lra_230"].map(|column| row.number(column)),
            })
        })
        .collect()
});

/// A number that may be written as a fraction.
fn fraction(cell: &str) -> Option<f64> {
    match cell.split_once('/') {
        Some((above, below)) => Some(above.parse::<f64>().ok()? / below.parse::<f64>().ok()?),
        None => cell.parse().ok(),
    }
}

/// The row that is not below a power, and the column for a voltage: 115 V serves systems of 110 to 120 V, 230 V those
/// of 220 to 240 V.
fn row(horsepower: f64, volts: f64) -> Option<(&'static Motor, usize)> {
    let column = match volts {
        110.0..=120.0 => 0,
        220.0..=240.0 => 1,
        _ => return None,
    };
    Some((MOTORS.iter().find(|motor| !exceeds(horsepower, motor.horsepower))?, column))
}

/// Locked-rotor current as a multiple of full load.
///
/// Source: the rows of NEC Table 430.251(A) beside those of 430.248: every one is six times.
pub const LOCKED_ROTOR_MULTIPLE: f64 = 6.0;

/// Full-load current of a single-phase motor, which counts in place of the nameplate's.
///
/// - `horsepower`  rated power [hp], above 0; between two rows the larger counts
/// - `volts`       of the system [V], 110 to 120 or 220 to 240
///
/// Returns the current [A], or none above 3 hp or at another voltage.
///
/// Source: NEC Table 430.248.
pub fn full_load_a(horsepower: f64, volts: f64) -> Option<f64> {
    let (motor, column) = row(horsepower, volts)?;
    motor.full_load_a[column]
}

/// Locked-rotor current of a single-phase motor.
///
/// - `horsepower`, `volts`  as in [`full_load_a`]
///
/// Returns the current [A]; below 1/2 hp, where the table ends, [`LOCKED_ROTOR_MULTIPLE`] times the full-load current.
///
/// Source: NEC Table 430.251(A).
pub fn locked_rotor_a(horsepower: f64, volts: f64) -> Option<f64> {
    let (motor, column) = row(horsepower, volts)?;
    motor.locked_rotor_a[column].or_else(|| Some(LOCKED_ROTOR_MULTIPLE * motor.full_load_a[column]?))
}

/// Code letter, and least and greatest kilovolt-amperes per horsepower.
static CODE_LETTERS: LazyLock<Vec<(char, f64, f64)>> = LazyLock::new(|| {
    rows(include_str!("../../data/motor_code_letters_430_7.csv"))
        .filter_map(|row| {
            let letter = row.text("letter").chars().next()?;
            Some((letter, row.number("kva_hp_low")?, row.number("kva_hp_high").unwrap_or(f64::INFINITY)))
        })
        .collect()
});

/// Code letter on a motor's nameplate: A to V without I, O and Q.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CodeLetter(char);

impl Options for CodeLetter {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("A", Self('A')),
        ("B", Self('B')),
        ("C", Self('C')),
        ("D", Self('D')),
        ("E", Self('E')),
        ("F", Self('F')),
        ("G", Self('G')),
        ("H", Self('H')),
        ("J", Self('J')),
        ("K", Self('K')),
        ("L", Self('L')),
        ("M", Self('M')),
        ("N", Self('N')),
        ("P", Self('P')),
        ("R", Self('R')),
        ("S", Self('S')),
        ("T", Self('T')),
        ("U", Self('U')),
        ("V", Self('V')),
    ];
}

impl CodeLetter {
    /// The letter.
    pub fn letter(self) -> char {
        self.0
    }
}

/// Starting current of a motor as a multiple of its full-load current.
///
/// - `horsepower`  rated power [hp], up to 3
/// - `letter`      code letter of its nameplate, where it is known: the greatest current of its band, of V the least
///
/// Returns the multiple; [`LOCKED_ROTOR_MULTIPLE`] without a letter or above 3 hp.
///
/// Source: NEC Tables 430.7(B) (`from memory`), 430.248 and 430.251(A).
pub fn starting_multiple(horsepower: f64, letter: Option<CodeLetter>) -> f64 {
    let volts = 115.0;
    let by_letter = letter.and_then(|letter| code_letter_a(letter.0, horsepower, volts));
    let greatest_a =
        by_letter.map(|(least_a, greatest_a)| if greatest_a.is_finite() { greatest_a } else { least_a });
    let locked_rotor_a = greatest_a.or_else(|| locked_rotor_a(horsepower, volts));
    match (locked_rotor_a, full_load_a(horsepower, volts)) {
        (Some(start_a), Some(full_load_a)) => start_a / full_load_a,
        _ => LOCKED_ROTOR_MULTIPLE,
    }
}

/// Locked-rotor current of a single-phase motor from the code letter on its nameplate.
///
/// `I = 1000 (kVA/hp) hp / V`
///
/// - `letter`      code letter, A to V without I, O and Q
/// - `horsepower`  rated power [hp]
/// - `volts`       rated voltage [V], above 0
///
/// Returns the least and the greatest current [A], the greatest infinite for V; none for another letter.
///
/// Source: NEC Table 430.7(B), `from memory`.
pub fn code_letter_a(letter: char, horsepower: f64, volts: f64) -> Option<(f64, f64)> {
    let (_, least, greatest) = CODE_LETTERS.iter().find(|(known, ..)| *known == letter)?;
    let amperes = |kva_per_hp: f64| kva_per_hp * horsepower * 1000.0 / volts;
    Some((amperes(*least), amperes(*greatest)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nine_powers_have_currents_that_rise() {
        assert_eq!(MOTORS.len(), 9);
        assert!(MOTORS.is_sorted_by(|a, b| a.horsepower < b.horsepower && a.full_load_a < b.full_load_a));
        assert_eq!(full_load_a(0.5, 115.0), Some(9.8));
        assert_eq!(full_load_a(1.0, 230.0), Some(8.0));
    }

    #[test]
    fn a_power_between_two_rows_counts_as_the_larger() {
        assert_eq!(full_load_a(1.0 / 3.0, 120.0), Some(7.2));
        assert_eq!(full_load_a(0.4, 120.0), Some(9.8));
        assert_eq!(full_load_a(0.05, 120.0), Some(4.4));
        assert_eq!(full_load_a(3.1, 120.0), None);
        assert_eq!(full_load_a(1.0, 208.0), None);
    }

    #[test]
    fn every_letter_of_the_table_is_a_choice() {
        let words: Vec<char> = CodeLetter::WORDS.iter().map(|(_, letter)| letter.letter()).collect();
        assert_eq!(words, CODE_LETTERS.iter().map(|(letter, ..)| *letter).collect::<Vec<_>>());
    }

    #[test]
    fn a_code_letter_says_how_a_motor_starts() {
        let letter = |word| CodeLetter::WORDS.iter().find(|(w, _)| *w == word).map(|(_, letter)| *letter);
        // Half a horsepower, L: up to 9.99 kVA a horsepower, 43.4 A of 9.8 A.
        assert_eq!(format!("{:.3}", starting_multiple(0.5, letter("L"))), "4.432");
        assert!(starting_multiple(0.5, letter("V")).is_finite());
        assert!((starting_multiple(0.5, None) - 6.0).abs() < 1e-12);
        assert_eq!(starting_multiple(5.0, letter("L")), LOCKED_ROTOR_MULTIPLE);
    }

    #[test]
    fn a_locked_rotor_draws_six_times_full_load() {
        for motor in MOTORS.iter() {
            for volts in [115.0, 230.0] {
                let ratio = locked_rotor_a(motor.horsepower, volts).unwrap()
                    / full_load_a(motor.horsepower, volts).unwrap();
                assert!((ratio - LOCKED_ROTOR_MULTIPLE).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn every_code_letter_begins_where_the_one_before_ends() {
        let letters: String = CODE_LETTERS.iter().map(|(letter, ..)| letter).collect();
        assert_eq!(letters, "ABCDEFGHJKLMNPRSTUV");
        assert!(CODE_LETTERS.windows(2).all(|pair| (pair[1].1 - pair[0].2 - 0.01).abs() < 1e-9));
        assert_eq!(code_letter_a('V', 1.0, 1000.0), Some((22.4, f64::INFINITY)));
        assert_eq!(code_letter_a('I', 1.0, 115.0), None);
    }
}
