//! Heat that people give off in a room.

use crate::standards::occupant::{Activity, At24C, at_24_c};

/// Who it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Person {
    /// Anyone: the usual mix.
    Anyone,
    /// A man.
    Man,
    /// A woman: 85 % of a man.
    Woman,
    /// A child: 75 % of a man.
    Child,
}

/// Heat of one person.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// Warms the room [W].
    pub sensible_w: f64,
    /// Leaves in water [W].
    pub latent_w: f64,
}

/// Room temperature of the table [°C].
const TABLE_C: f64 = 24.0;
/// Share of the sensible heat that each degree above it takes away: 20 % at 27 °C.
const FALL_PER_K: f64 = 0.2 / 3.0;

/// Share of the sensible heat that radiates to walls and furniture, in still air.
///
/// Source: ASHRAE Handbook Fundamentals 2009, chapter 18, Table 1.
pub const RADIANT_STILL_AIR: f64 = 0.60;
/// Share of the sensible heat that radiates to walls and furniture, in the stream of a fan.
///
/// Source: ASHRAE Handbook Fundamentals 2009, chapter 18, Table 1.
pub const RADIANT_MOVING_AIR: f64 = 0.27;

/// Heat that one person gives off.
///
/// ```text
/// Q_s = f Q_s24 [1 − 0.2 (t − 24) / 3]    Q_l = f (Q_s24 + Q_l24) − Q_s
/// ```
///
/// - `activity`  what they do, for Q_s24 and Q_l24 in a room at 24 °C
/// - `person`    who it is: f is 1 of anyone; a man's total, 0.85 and 0.75 of it, by that of anyone
/// - `room_c`    temperature of the room t [°C]. Tabled for 24 and 27; beyond them it goes on straight, Q_s between 0 and all
///
/// Returns both heats [W], 0 or more. What they make up does not change with the room.
///
/// Source: ASHRAE Handbook Fundamentals 2009, chapter 18, Table 1 and its note 1.
pub fn person_w(activity: Activity, person: Person, room_c: f64) -> Heat {
    let At24C { sensible_w, latent_w, man_w } = at_24_c(activity);
    let anyone_w = sensible_w + latent_w;
    let total_w = match person {
        Person::Anyone => anyone_w,
        Person::Man => man_w,
        Person::Woman => 0.85 * man_w,
        Person::Child => 0.75 * man_w,
    };
    let share = sensible_w / anyone_w * (1.0 - FALL_PER_K * (room_c - TABLE_C));
    let sensible_w = total_w * share.clamp(0.0, 1.0);
    Heat { sensible_w, latent_w: total_w - sensible_w }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::w_from_btu_h;
    use proptest::prelude::*;

    fn printed(heat: Heat) -> String {
        format!("{:.0} {:.0}", heat.sensible_w, heat.latent_w)
    }

    #[test]
    fn at_27_a_fifth_of_the_sensible_heat_becomes_latent() {
        let at = |room_c| printed(person_w(Activity::LightWork, Person::Anyone, room_c));
        assert_eq!([24.0, 25.5, 27.0].map(at), ["70 45", "63 52", "56 59"]);
    }

    #[test]
    fn a_woman_and_a_child_give_off_less_than_a_man() {
        let total = |person| {
            let heat = person_w(Activity::LightWork, person, 24.0);
            heat.sensible_w + heat.latent_w
        };
        let [anyone, man, woman, child] =
            [Person::Anyone, Person::Man, Person::Woman, Person::Child].map(total);
        assert_eq!((anyone, man), (115.0, 130.0));
        assert!((woman / man - 0.85).abs() < 1e-12 && (child / man - 0.75).abs() < 1e-12);
    }

    #[test]
    fn in_a_hot_box_all_heat_leaves_as_water() {
        let heat = person_w(Activity::Asleep, Person::Anyone, 55.0);
        assert_eq!(heat, Heat { sensible_w: 0.0, latent_w: 75.0 });
        let heat = person_w(Activity::Asleep, Person::Anyone, -20.0);
        assert_eq!(heat, Heat { sensible_w: 75.0, latent_w: 0.0 });
    }

    /// Source: ASHRAE Handbook Fundamentals 2009, chapter 18, Table 1: 245 and 155 BTU/h (`from memory`), beside watts
    /// rounded to 5.
    #[test]
    fn very_light_work_in_the_trades_units() {
        let heat = person_w(Activity::LightWork, Person::Anyone, 24.0);
        assert!((w_from_btu_h(245.0) - heat.sensible_w).abs() <= 2.5);
        assert!((w_from_btu_h(155.0) - heat.latent_w).abs() <= 2.5);
    }

    proptest! {
        #[test]
        fn what_they_make_up_does_not_change_with_the_room(room_c in -40.0..80.0f64, warmer_k in 0.0..20.0f64) {
            let cool = person_w(Activity::Seated, Person::Woman, room_c);
            let warm = person_w(Activity::Seated, Person::Woman, room_c + warmer_k);
            prop_assert!((warm.sensible_w + warm.latent_w - cool.sensible_w - cool.latent_w).abs() < 1e-12);
            prop_assert!(warm.sensible_w <= cool.sensible_w && cool.latent_w >= 0.0);
        }
    }
}
