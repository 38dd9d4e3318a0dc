//! Whole files: read as they were written, or refused with the place of every fault.

use jiff::civil::date;
use proptest::prelude::*;

use super::fixture::{Invented, lines_as, with};
use super::*;
use crate::sky::clock::Clock;

fn refusal(text: &str) -> String {
    read(text).expect_err("not refused").to_string()
}

/// The only fault of a text.
fn fault(text: &str) -> String {
    let refusal = read(text).expect_err("not refused");
    assert_eq!((refusal.list().len(), refusal.left_out()), (1, 0), "{refusal}");
    refusal.to_string()
}

fn columns(weather: &Weather) -> [&[f64]; 6] {
    [
        &weather.air_c,
        weather.dew_point_c.as_deref().unwrap_or_default(),
        &weather.ghi_w_m2,
        &weather.dni_w_m2,
        &weather.dhi_w_m2,
        &weather.wind_m_s,
    ]
}

fn assert_reads_back(invented: &Invented, text: &str) {
    let file = read(text).unwrap_or_else(|refusal| panic!("{refusal}"));
    assert_eq!(file.weather.clock, invented.clock);
    for (column, figures) in columns(&file.weather).into_iter().enumerate() {
        assert!(figures.iter().eq(invented.rows.iter().map(|row| &row[column])), "column {column}");
    }
    assert_eq!(file.filled, []);
}

mod good_files {
    use super::*;

    #[test]
    fn a_typical_year_is_read_as_it_was_written() {
        let year = Invented::year();
        assert_eq!(year.clock, Clock::typical_hours());
        assert_reads_back(&year, &year.epw());
        assert_reads_back(&year, &year.tmy3());
        let file = read(&year.epw()).unwrap();
        assert_eq!((file.format, file.station.as_str()), (Format::Epw, "Heron Flats, NC, USA"));
        assert_eq!(file.place.latitude_rad, 36.1_f64.to_radians());
        assert_eq!(file.place.longitude_rad, -79.95_f64.to_radians());
        assert_eq!((file.place.utc_offset_h, file.place.altitude_m), (-5.0, 273.0));
        let file = read(&year.tmy3()).unwrap();
        assert_eq!((file.format, file.station.as_str()), (Format::Tmy3, "HERON FLATS, INVENTED, NC"));
        assert_eq!(file.place, read(&year.epw()).unwrap().place);
    }

    #[test]
    fn a_leap_year_is_laid_in_one() {
        let year = Invented::days(date(2024, 1, 1), 366, 1);
        assert_eq!(year.clock.count(), 8784);
        assert_reads_back(&year, &year.epw());
        assert_reads_back(&year, &year.tmy3());
    }

    #[test]
    fn a_part_of_a_year_is_read_where_its_header_says_so() {
        for (first, days, per_hour) in
            [(date(2025, 6, 1), 30, 1), (date(2025, 12, 20), 20, 2), (date(2023, 11, 1), 150, 1)]
        {
            let part = Invented::days(first, days, per_hour);
            assert_reads_back(&part, &part.epw());
        }
    }

    #[test]
    fn shorter_records_are_energy_over_their_minutes() {
        for per_hour in [2, 4] {
            let part = Invented::days(date(2025, 3, 1), 3, per_hour);
            assert_reads_back(&part, &part.epw());
            // The last record of an hour may have minute 0 for 60.
            let other = part.epw().replace(",60,?9?9", ",0,?9?9");
            assert_reads_back(&part, &other);
        }
        let text = Invented::days(date(2025, 3, 1), 1, 2).epw();
        // 12:00 to 12:30, with 500 W/m² on average.
        assert!(
            text.lines().nth(8 + 24).unwrap().contains("1,13,30,?9?9,13,5,70,98000,0,0,300,250,375,125,")
        );
    }

    #[test]
    fn any_line_end_and_mark_will_do() {
        let part = Invented::days(date(2025, 6, 1), 2, 1);
        let text = part.epw();
        assert_reads_back(&part, &text.replace('\n', "\r\n"));
        assert_reads_back(&part, &text.replace('\n', "\r"));
        assert_reads_back(&part, &format!("\u{feff}{text}\r\n\r\n  \n\u{1a}"));
        assert_reads_back(&part, text.trim_end());
        assert_reads_back(&part, &text.replacen("LOCATION", "location", 1));
        let latin = text.replacen("Heron", "H\u{fffd}ron", 1);
        assert_eq!(read(&latin).unwrap().station, "H\u{fffd}ron Flats, NC, USA");
        let bytes: Vec<u8> =
            latin.replace('\u{fffd}', "~").bytes().map(|b| if b == b'~' { 0xe9 } else { b }).collect();
        assert_eq!(read_bytes(&bytes).unwrap(), read(&latin).unwrap());
    }

    #[test]
    fn columns_of_tmy3_are_found_by_name() {
        let year = Invented::year();
        let turned = lines_as(&year.tmy3(), |line, row| {
            let mut fields: Vec<&str> = row.split(',').collect();
            if line > 1 {
                fields.reverse();
            }
            vec![fields.join(",")]
        });
        assert_reads_back(&year, &turned);
    }

    #[test]
    fn midnight_may_be_written_as_the_next_day() {
        let year = Invented::year();
        let days: Vec<String> =
            year.clock.days().iter().map(|day| day.date.strftime("%m/%d").to_string()).collect();
        let mut text = year.tmy3();
        let mut tomorrows = days.iter().cycle().skip(1);
        for today in &days {
            let tomorrow = tomorrows.next().unwrap();
            let at = text.find(&format!("{today}/")).unwrap();
            let midnight = at + text[at..].find(",24:00").unwrap();
            let begin = text[..midnight].rfind('\n').unwrap() + 1;
            text.replace_range(begin..midnight + 6, &format!("{tomorrow}/2001,00:00"));
        }
        assert!(!text.contains("24:00"));
        assert_reads_back(&year, &text);
    }

    #[test]
    fn a_tmy3_file_may_lack_the_dew_point() {
        let text = Invented::year().tmy3().replace("Dew-point (C)", "Dew-point gone");
        assert_eq!(read(&text).unwrap().weather.dew_point_c, None);
    }
}

mod missing_figures {
    use super::*;

    /// First line of data of an EPW file.
    const FIRST: usize = 9;

    fn filled(text: &str) -> (Weather, Vec<(Column, Filling, usize)>) {
        let file = read(text).unwrap_or_else(|refusal| panic!("{refusal}"));
        let filled = file.filled.iter().map(|filled| (filled.column, filled.how, filled.count)).collect();
        assert!(columns(&file.weather).iter().all(|figures| figures.iter().all(|figure| figure.is_finite())));
        (Arc::unwrap_or_clone(file.weather), filled)
    }

    fn june() -> String {
        Invented::days(date(2025, 6, 1), 2, 1).epw()
    }

    fn without(text: &str, rows: std::ops::Range<usize>, column: usize, mark: &str) -> String {
        rows.fold(text.to_owned(), |text, row| with(&text, FIRST + row, column, mark))
    }

    #[test]
    fn short_gaps_are_bridged_by_a_straight_line() {
        let (weather, filled) = filled(&without(&june(), 10..16, 7, "99.9"));
        assert_eq!(filled, [(Column::Air, Filling::Interpolated, 6)]);
        // From 12.25 °C at 9 h to 14 °C at 16 h in steps of a quarter.
        assert_eq!(weather.air_c[9..17], [12.25, 12.5, 12.75, 13.0, 13.25, 13.5, 13.75, 14.0]);
        let (weather, filled) = self::filled(&without(&june(), 42..48, 22, "999"));
        assert_eq!(filled, [(Column::Wind, Filling::Interpolated, 6)]);
        assert_eq!(weather.wind_m_s[42..], [2.5; 6]);
        assert!(without(&june(), 0..6, 7, "").contains(",?9?9,,5,"));
        assert_eq!(self::filled(&without(&june(), 0..6, 7, "")).0.air_c[0], 11.5);
    }

    #[test]
    fn long_gaps_are_refused_at_their_first_row() {
        let fault = fault(&without(&june(), 10..17, 7, "99.9"));
        assert!(
            fault.starts_with(
                "line 19, column 7, dry bulb temperature: is missing here and in 6 rows after it"
            ),
            "{fault}"
        );
        assert!(
            refusal(&without(&june(), 0..48, 22, "999"))
                .starts_with("line 9, column 22, wind speed: is missing")
        );
        let (weather, _) = filled(&without(&june(), 0..48, 8, "99.9"));
        assert_eq!(weather.dew_point_c, None);
        assert!(
            refusal(&without(&june(), 0..7, 8, "99.9"))
                .starts_with("line 9, column 8, dew point temperature")
        );
    }

    #[test]
    fn one_irradiance_follows_from_the_two_others() {
        let (good, _) = filled(&june());
        for (column, mark) in [(14, Column::Ghi), (15, Column::Dni), (16, Column::Dhi)] {
            let (weather, filled) = self::filled(&without(&june(), 0..48, column, "9999"));
            assert_eq!(filled, [(mark, Filling::Closed, 48)]);
            let gap = Clock::new(date(2025, 6, 1).at(0, 0, 0, 0), 60, 48).unwrap();
            assert_eq!(weather.clock, gap);
            assert_eq!(weather.wind_m_s, good.wind_m_s);
        }
        // Twice the sun's path on the horizon: what is left is diffuse.
        let (weather, _) = filled(&without(&june(), 0..48, 14, "9999"));
        let (again, _) = filled(&{
            let mut text = june();
            for (row, ghi) in weather.ghi_w_m2.iter().enumerate() {
                text = with(&text, FIRST + row, 14, &ghi.to_string());
                text = with(&text, FIRST + row, 16, "9999");
            }
            text
        });
        for (hour, (dhi, was)) in again.dhi_w_m2.iter().zip(&good.dhi_w_m2).enumerate() {
            assert!((dhi - was).abs() < 1e-9, "hour {hour}: {dhi} and {was}");
        }
    }

    #[test]
    fn global_irradiance_alone_is_split() {
        let text = without(&without(&june(), 0..48, 15, "9999"), 0..48, 16, "9999");
        let (weather, filled) = filled(&text);
        assert_eq!(filled, [(Column::Dni, Filling::Split, 48), (Column::Dhi, Filling::Split, 48)]);
        assert!(weather.dni_w_m2[12] > 0.0 && weather.dhi_w_m2[12] > 0.0);
        assert_eq!((weather.dni_w_m2[0], weather.dhi_w_m2[0]), (0.0, 0.0));
    }

    #[test]
    fn nothing_is_known_by_night_and_by_day_it_is_refused() {
        let all = |rows: std::ops::Range<usize>| {
            [14, 15, 16].iter().fold(june(), |text, &column| without(&text, rows.clone(), column, "9999"))
        };
        let (weather, filled) = filled(&all(21..28));
        let dark = |column| (column, Filling::Dark, 7);
        assert_eq!(filled, [dark(Column::Ghi), dark(Column::Dni), dark(Column::Dhi)]);
        assert_eq!(weather.ghi_w_m2[21..28], [0.0; 7]);
        let fault = fault(&all(10..13));
        assert!(
            fault.starts_with("line 19, column 14, global horizontal radiation: is missing by day in 3 rows"),
            "{fault}"
        );
    }

    #[test]
    fn a_reading_a_little_below_zero_is_none() {
        let (weather, filled) = filled(&with(&june(), FIRST + 2, 14, "-9.5"));
        assert_eq!((weather.ghi_w_m2[2], filled), (0.0, vec![(Column::Ghi, Filling::BelowZero, 1)]));
        assert!(
            fault(&with(&june(), FIRST + 2, 14, "-10.5")).contains("must be a number, -10 to 2200 Wh/m²")
        );
    }

    #[test]
    fn tmy3_has_a_mark_of_its_own() {
        let year = Invented::year().tmy3();
        let (_, filled) = filled(&with(&with(&year, 3, 7, "-9900"), 4, 5, "-9900.0"));
        assert_eq!(filled, [(Column::Air, Filling::Interpolated, 1), (Column::Dni, Filling::Closed, 1)]);
    }
}

mod bad_files {
    use super::*;

    #[test]
    fn what_is_no_weather_file_says_what_it_looks_like() {
        for (text, looks) in [
            ("", "the file is empty"),
            ("\n \n", "the file is empty"),
            ("<!DOCTYPE html>\n<html>", "looks like HTML"),
            ("{\"type\": \"FeatureCollection\"}", "looks like JSON"),
            ("PK\u{3}\u{4}\u{14}\0", "looks like a zip archive"),
            ("L\0O\0C\0A\0T\0I\0O\0N\0", "binary data or text in UTF-16"),
            ("\u{fffd}\u{fffd}xyz", "binary data"),
            ("%PDF-1.7", "looks like PDF"),
            ("date;ghi\n1;2", "looks like neither"),
        ] {
            let fault = fault(text);
            assert!(
                fault.starts_with("line 1: must begin with LOCATION") && fault.contains(looks),
                "{fault}"
            );
        }
        let large = "x".repeat(TEXT_MOST_BYTES + 1);
        assert!(fault(&large).contains("must have 8388608 bytes or fewer; it has 8388609"));
        assert_eq!(read_bytes(large.as_bytes()), read(&large));
    }

    #[test]
    fn fields_are_refused_at_their_columns() {
        let text = Invented::days(date(2025, 6, 1), 2, 1).epw();
        for (line, column, field, begin) in [
            (1, 7, "95", "latitude: must be -90 to 90"),
            (1, 8, "79.95", "longitude: must go with the time zone"),
            (8, 2, "2", "number of data periods: must be 1; got \"2\""),
            (8, 3, "7", "records per hour: must be 1, 2, 4 or another whole part of 60; got \"7\""),
            (8, 6, "June", "start day: must be month and day, such as 1/1; got \"June\""),
            (8, 7, "6/31", "end day: must be month and day"),
            (10, 2, "13", "month: must be 1 to 12; got \"13\""),
            (10, 3, "31", "day: must be a day of the month; got \"31\""),
            (10, 4, "0", "hour: must be 1 to 24, the hour that the record ends; got \"0\""),
            (10, 5, "30", "minute: must be 0 or 60 or between them by 60"),
            (
                10,
                7,
                "200",
                "dry bulb temperature: must be a number, -90 to 60 °C, or 99.9 where it is missing; got \"200\"",
            ),
            (10, 14, "5000", "global horizontal radiation: must be a number, -10 to 2200 Wh/m², or 9999"),
            (10, 15, "NaN", "direct normal radiation: must be a number"),
            (10, 16, "inf", "diffuse horizontal radiation: must be a number"),
            (
                10,
                22,
                "calm",
                "wind speed: must be a number, 0 to 75 m/s, or 999 where it is missing; got \"calm\"",
            ),
        ] {
            let fault = fault(&with(&text, line, column, field));
            assert!(fault.starts_with(&format!("line {line}, column {column}, {begin}")), "{fault}");
        }
        let year = Invented::year().tmy3();
        assert!(fault(&year.replacen("36.100", "181", 1)).starts_with("line 1, column 5, latitude: must be"));
        for (line, column, field, begin) in [
            (3, 1, "1988-01-01", "Date (MM/DD/YYYY): must be a date MM/DD/YYYY; got \"1988-01-01\""),
            (3, 2, "01:30", "Time (HH:MM): must be a full hour, 01:00 to 24:00"),
            (3, 3, "lots", "GHI (W/m^2): must be a number, -10 to 2200 W/m², or -9900 where it is missing"),
        ] {
            let fault = fault(&with(&year, line, column, field));
            assert!(fault.starts_with(&format!("line {line}, column {column}, {begin}")), "{fault}");
        }
    }

    #[test]
    fn a_header_that_ends_nowhere_or_lacks_a_column() {
        let text = Invented::days(date(2025, 6, 1), 1, 1).epw();
        let without = lines_as(&text, |line, row| if line == 8 { vec![] } else { vec![row.to_owned()] });
        assert!(fault(&without).starts_with("line 7: must come after a line DATA PERIODS,1,1,Data"));
        let header: Vec<&str> = text.lines().take(8).collect();
        assert_eq!(fault(&header.join("\n")), "line 8: rows of data must follow");
        let year = Invented::year().tmy3();
        let lacking = year.replace("GHI (W/m^2)", "x").replace("Wspd (m/s)", "y");
        assert_eq!(
            refusal(&lacking),
            "line 2, GHI (W/m^2): is missing among the names of the columns\n\
             line 2, Wspd (m/s): is missing among the names of the columns"
        );
    }

    #[test]
    fn rows_must_follow_one_another() {
        for text in [Invented::year().epw(), Invented::year().tmy3()] {
            let is_epw = text.starts_with("LOCATION");
            let head = if is_epw { 8 } else { 2 };
            // The row of January 3, 10:00 to 11:00.
            let row = head + 59;
            let (time, date) =
                if is_epw { ("4, hour", "2, month") } else { ("2, Time (HH:MM)", "1, Date (MM/DD/YYYY)") };
            let missing =
                fault(&lines_as(&text, |line, of| if line == row { vec![] } else { vec![of.to_owned()] }));
            assert_eq!(
                missing,
                format!(
                    "line {row}, column {time}: must be of the record that ends 01/03 11:00; the one that ends 01/03 12:00 leaves rows out before it"
                )
            );
            let doubled =
                fault(&lines_as(&text, |line, of| vec![of.to_owned(); if line == row { 2 } else { 1 }]));
            assert_eq!(
                doubled,
                format!(
                    "line {}, column {time}: must be of the record that ends 01/03 12:00; the one that ends 01/03 11:00 repeats the row before",
                    row + 1
                )
            );
            let month_gone = fault(&lines_as(&text, |line, of| match line - 1 {
                i if (head + 744..head + 744 + 672).contains(&i) => vec![],
                _ => vec![of.to_owned()],
            }));
            assert_eq!(
                month_gone,
                format!(
                    "line {}, column {date}: must be of the record that ends 02/01 01:00; the one that ends 03/01 01:00 leaves rows out before it",
                    head + 745
                )
            );
            let short: Vec<&str> = text.lines().take(head + 8759).collect();
            assert_eq!(
                fault(&short.join("\n")),
                format!(
                    "line {}: is the last row, and ends 12/31 23:00; rows must go on to 12/31 24:00, the end of the data",
                    head + 8759
                )
            );
            let long = format!("{text}{}", text.lines().nth(head).unwrap());
            assert_eq!(
                fault(&long),
                format!(
                    "line {}: must not be there: the row before ends 12/31 24:00, the end of the data",
                    head + 8761
                )
            );
        }
    }

    #[test]
    fn a_row_of_another_width_is_one_fault() {
        let text = Invented::days(date(2025, 6, 1), 2, 1).epw();
        let cut = |row: usize| {
            lines_as(&text, |line, of| {
                vec![if line == row { of.rsplit_once(',').unwrap().0 } else { of }.to_owned()]
            })
        };
        assert_eq!(fault(&cut(20)), "line 20, column 35: the row has 34 columns; 35 are right");
        // Files of an older kind have fewer columns in all rows.
        assert!(
            read(&lines_as(&text, |line, of| vec![
                if line > 8 { of.rsplit_once(',').unwrap().0 } else { of }.to_owned()
            ]))
            .is_ok()
        );
        let wide =
            lines_as(&text, |line, of| vec![if line == 20 { format!("{of},1") } else { of.to_owned() }]);
        assert_eq!(fault(&wide), "line 20, column 36: the row has 36 columns; 35 are right");
        let blank = lines_as(&text, |line, of| vec![if line == 20 { String::new() } else { of.to_owned() }]);
        assert_eq!(fault(&blank), "line 20, column 2, month: the row has 1 columns; 35 are right");
        let end = text.trim_end().rfind("300,").unwrap();
        assert_eq!(
            fault(&text[..end]),
            "line 56, column 14, global horizontal radiation: the row has 13 columns; 35 are right; the file ends within it"
        );
    }

    #[test]
    fn all_faults_come_together_in_the_order_of_the_file() {
        let text = Invented::days(date(2025, 6, 1), 2, 1).epw();
        let text = (10..20)
            .fold(with(&text, 1, 7, "95"), |text, line| with(&with(&text, line, 7, "hot"), line, 22, "-1"));
        let refusal = read(&text).unwrap_err();
        assert_eq!((refusal.list().len(), refusal.left_out()), (20, 1));
        assert!(refusal.list().is_sorted_by_key(|fault| (fault.line, fault.column)));
        assert_eq!((refusal.list()[0].line, refusal.list()[19].line), (1, 19));
    }
}

/// Weather of some days that a file can hold exactly.
fn invented() -> impl Strategy<Value = Invented> {
    let row = (-900..600, -1100..400, 0..2200, 0..1500, 0..1400, 0..75).prop_map(
        |(air, dew, ghi, dni, dhi, wind)| {
            let tenths = |tenths: i32| f64::from(tenths) / 10.0;
            [tenths(air), tenths(dew), f64::from(ghi), f64::from(dni), f64::from(dhi), f64::from(wind)]
        },
    );
    let first = (0..730_i64).prop_map(|days| date(2024, 1, 1).saturating_add(jiff::Span::new().days(days)));
    let steps = prop::sample::select(vec![1_u32, 2, 4]);
    (first, 1..4_usize, steps, prop::collection::vec(row, 4 * 24 * 4)).prop_filter_map(
        "a leap day stands in a leap year",
        |(first, days, per_hour, rows)| {
            let mut invented = Invented::days(first, days, per_hour);
            let has_leap_day = invented.clock.days().iter().any(|day| day.date == date(2024, 2, 29));
            // The typical year stands for a series without leap day.
            if !has_leap_day {
                invented = Invented::days(first.with().year(2025).build().ok()?, days, per_hour);
            }
            invented.rows.iter_mut().zip(rows).for_each(|(row, with)| *row = with);
            Some(invented)
        },
    )
}

proptest! {
    #[test]
    fn what_is_written_is_read_back(invented in invented()) {
        assert_reads_back(&invented, &invented.epw());
    }

    #[test]
    fn no_cut_and_no_slip_of_a_file_panics(
        at in 0.0..1.0_f64,
        cut in 0.0..1.0_f64,
        to in prop::sample::select(vec![",", "\n", "\r", "\"", "-", "9", "/", " ", "", "e", "\0", "é", "0,0"]),
        is_epw: bool,
    ) {
        let june = Invented::days(date(2025, 6, 1), 2, 4);
        let text = if is_epw { june.epw() } else { june.tmy3() };
        let place = |share: f64| (share * text.len() as f64) as usize;
        for text in [
            text[..place(cut)].to_owned(),
            format!("{}{to}{}", &text[..place(at)], &text[place(at) + 1..]),
            format!("{}{to}{}", &text[..place(at)], &text[place(at) + 1..])[..place(cut)].chars().collect(),
        ] {
            if let Err(refusal) = read(&text) {
                prop_assert!(!refusal.list().is_empty());
                prop_assert!(refusal.list().iter().all(|fault| fault.line > 0 && !fault.detail.is_empty()));
            }
        }
    }

    #[test]
    fn a_file_that_is_read_has_a_figure_for_every_step(
        slips in prop::collection::vec((9..57_usize, 1..36_usize, prop::sample::select(vec!["", "99.9", "999", "9999", "0", "-1", "x"])), 0..6),
    ) {
        let text = slips.iter().fold(Invented::days(date(2025, 6, 1), 2, 1).epw(), |text, (line, column, field)| with(&text, *line, *column, field));
        if let Ok(file) = read(&text) {
            let weather = &file.weather;
            for figures in columns(weather) {
                prop_assert!(figures.len() == weather.clock.count() && figures.iter().all(|figure| figure.is_finite()));
            }
            for figures in [&weather.ghi_w_m2, &weather.dni_w_m2, &weather.dhi_w_m2, &weather.wind_m_s] {
                prop_assert!(figures.iter().all(|&figure| figure >= 0.0));
            }
        }
    }
}
