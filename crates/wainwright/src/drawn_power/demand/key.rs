//! What a demand goes by, as numbers: two of the same come to the same.

use super::{ColdBox, Demand, Idle, Load};
use crate::build::Schedule;

/// Stands where a list ends or something is left out; no number has these bits.
const NOTHING: u64 = u64::MAX;

impl Demand<'_> {
    /// Everything that [`Demand::fill`] goes by where nothing is followed.
    pub fn key(&self) -> Vec<u64> {
        // Every member by its name: one that is added is not forgotten here.
        let Self { loads, cold_boxes, idles, constant_w, followed: _ } = self;
        let mut key = vec![constant_w.to_bits()];
        for Load { running_w, schedule, usual_share } in loads {
            key.extend([running_w.to_bits(), usual_share.to_bits()]);
            push(&mut key, schedule);
        }
        key.push(NOTHING);
        for ColdBox { leak_w_per_k, inside_c, running_w, per_w, schedule } in cold_boxes {
            key.extend([leak_w_per_k, inside_c, running_w, per_w].map(|number| number.to_bits()));
            push(&mut key, schedule);
        }
        key.push(NOTHING);
        for Idle { idle_w, off_when_unused, only_when_unused, loads } in idles {
            key.extend([idle_w.to_bits(), u64::from(*off_when_unused), u64::from(*only_when_unused)]);
            for (schedule, share) in loads {
                key.push(share.to_bits());
                push(&mut key, schedule);
            }
            key.push(NOTHING);
        }
        key
    }
}

fn push(key: &mut Vec<u64>, schedule: &Schedule) {
    let Schedule { hours_per_day, on_fraction, weekdays, months } = schedule;
    key.push(hours_per_day.map_or(NOTHING, f64::to_bits));
    key.extend(on_fraction.iter().flat_map(|hours| hours.iter()).map(|share| share.to_bits()));
    key.push(NOTHING);
    key.extend(weekdays.iter().flat_map(|days| days.iter()).map(|day| *day as u64));
    // None given is every day; a list of none is not.
    key.extend([u64::from(weekdays.is_some()), NOTHING]);
    key.extend(months.iter().flat_map(|months| months.iter()).map(|month| u64::from(*month)));
    key.extend([u64::from(months.is_some()), NOTHING]);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::Weekday;

    const ALWAYS: Schedule = Schedule::ALWAYS;

    #[test]
    fn whatever_differs_has_another_key() {
        let load = Load { running_w: 10.0, schedule: ALWAYS, usual_share: 0.5 };
        let cold =
            ColdBox { leak_w_per_k: 0.5, inside_c: 4.0, running_w: 45.0, per_w: 1.0, schedule: ALWAYS };
        let with = |schedule| Demand { loads: vec![Load { schedule, ..load }], ..Demand::default() };
        let idle =
            Idle { idle_w: 9.0, off_when_unused: false, only_when_unused: false, loads: vec![(ALWAYS, 1.0)] };
        let (hours, days) = ([0.5; 24], [Weekday::Sat]);
        let all = [
            Demand::default(),
            Demand { constant_w: 1.0, ..Demand::default() },
            with(ALWAYS),
            Demand { loads: vec![load; 2], ..Demand::default() },
            Demand { loads: vec![Load { running_w: 11.0, ..load }], ..Demand::default() },
            Demand { loads: vec![Load { usual_share: 0.6, ..load }], ..Demand::default() },
            with(Schedule { hours_per_day: Some(5.0), ..ALWAYS }),
            with(Schedule { on_fraction: Some(&hours), ..ALWAYS }),
            with(Schedule { weekdays: Some(&days), ..ALWAYS }),
            with(Schedule { weekdays: Some(&[]), ..ALWAYS }),
            with(Schedule { months: Some(&[6]), ..ALWAYS }),
            with(Schedule { months: Some(&[]), ..ALWAYS }),
            Demand { cold_boxes: vec![cold], ..Demand::default() },
            Demand { cold_boxes: vec![ColdBox { per_w: 1.1, ..cold }], ..Demand::default() },
            Demand { idles: vec![idle.clone()], ..Demand::default() },
            Demand { idles: vec![Idle { off_when_unused: true, ..idle.clone() }], ..Demand::default() },
            Demand { idles: vec![Idle { only_when_unused: true, ..idle.clone() }], ..Demand::default() },
            Demand { idles: vec![Idle { loads: vec![], ..idle }], ..Demand::default() },
        ];
        for (index, one) in all.iter().enumerate() {
            assert_eq!(one.key(), one.clone().key());
            assert!(all[..index].iter().all(|other| other.key() != one.key()), "{one:?}");
        }
    }
}
