//! Heat that people give off, by what they do.

use std::sync::LazyLock;

use super::table::rows;
use crate::document::Options;

/// What people do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Activity {
    /// They sleep.
    Asleep,
    /// They sit at rest.
    Seated,
    /// They sit and do very light work: read, write, eat.
    LightWork,
    /// They move about now and then.
    ModerateWork,
    /// They stand, do light work or walk about.
    Standing,
    /// They work with their hands at a bench.
    BenchWork,
    /// They cook. The stove is apart.
    Cooking,
}

impl Options for Activity {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("asleep", Self::Asleep),
        ("seated", Self::Seated),
        ("light_work", Self::LightWork),
        ("moderate_work", Self::ModerateWork),
        ("standing", Self::Standing),
        ("bench_work", Self::BenchWork),
        ("cooking", Self::Cooking),
    ];
}

/// Heat of one person in a room at 24 °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct At24C {
    /// Warms the room, of the usual mix of men, women and children [W].
    pub sensible_w: f64,
    /// Leaves in water they breathe and sweat out, of the usual mix [W].
    pub latent_w: f64,
    /// Both together, of a man [W].
    pub man_w: f64,
}

/// The activities in the order of [`Activity`].
static AT_24_C: LazyLock<Vec<At24C>> = LazyLock::new(|| {
    rows(include_str!("../../data/occupants_ashrae.csv"))
        .map(|row| {
            let number = |column| row.number(column).unwrap_or(f64::NAN);
            At24C { sensible_w: number("sensible_w"), latent_w: number("latent_w"), man_w: number("man_w") }
        })
        .collect()
});

/// Heat of one person in a room at 24 °C, rounded to 5 W.
///
/// - `activity`  what they do
///
/// Source: ASHRAE Handbook Fundamentals 2009, chapter 18, Table 1; a man's totals `from memory`. Asleep and cooking by the
/// metabolic rates of ASHRAE 55, their parts chosen here.
pub fn at_24_c(activity: Activity) -> At24C {
    // Every activity has its row: a test holds it.
    AT_24_C[activity as usize]
}

/// Heat a body makes.
///
/// `M = met · 58.2 W/m² · A`
///
/// - `met`      metabolic rate [met]: 0.7 asleep, 1.0 seated, 1.8 cooking, 2.7 cleaning
/// - `body_m2`  skin A [m²], 1.8 of a grown man
///
/// Returns M [W].
///
/// Source: ASHRAE Standard 55, definition of the met and its list of activities.
pub fn metabolic_w(met: f64, body_m2: f64) -> f64 {
    met * 58.2 * body_m2
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_activity_has_its_row_and_a_man_gives_off_no_less_than_the_usual_mix() {
        let names = rows(include_str!("../../data/occupants_ashrae.csv")).map(|row| row.text("name"));
        assert!(names.eq(Activity::WORDS.iter().map(|(word, _)| *word)));
        for (place, (word, activity)) in Activity::WORDS.iter().enumerate() {
            assert_eq!(*activity as usize, place);
            let At24C { sensible_w, latent_w, man_w } = at_24_c(*activity);
            assert!(sensible_w > 0.0 && latent_w > 0.0 && man_w >= sensible_w + latent_w, "{word}");
        }
    }

    #[test]
    fn sleep_and_cooking_are_their_metabolic_rates_to_5_w() {
        assert!((metabolic_w(0.7, 1.8) - at_24_c(Activity::Asleep).man_w).abs() <= 2.5);
        assert!((metabolic_w(1.8, 1.8) - at_24_c(Activity::Cooking).man_w).abs() <= 2.5);
    }
}
