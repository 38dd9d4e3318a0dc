//! What is published of each case.

/// A published quantity of a case.
#[derive(Debug, Clone, Copy)]
pub struct Published {
    pub quantity: &'static str,
    /// Least and greatest of the six programs.
    pub span: (f64, f64),
    /// Limits of acceptance, where the standard has them.
    pub limits: Option<(f64, f64)>,
    /// What the published model by ISO 13790 gives.
    pub simple_hourly: Option<f64>,
}

/// All that is published of a case.
pub fn published(case: &str) -> Vec<Published> {
    let rows = include_str!("published.csv").lines().filter(|line| !line.starts_with('#')).skip(1);
    let of_case = rows.map(|line| line.split(',').collect::<Vec<_>>()).filter(|cells| cells[0] == case);
    let found: Vec<_> = of_case
        .map(|cells| {
            let number = |column: usize| cells[column].parse().ok();
            Published {
                quantity: cells[1],
                span: (number(2).unwrap(), number(3).unwrap()),
                limits: number(4).zip(number(5)),
                simple_hourly: number(6),
            }
        })
        .collect();
    assert!(!found.is_empty(), "{case}");
    found
}

impl Published {
    /// Is a figure within the span of the programs, in the digits that it is printed with?
    pub fn in_span(&self, value: f64) -> bool {
        self.within(self.span, value)
    }

    /// Is it within the limits of acceptance, where there are any?
    pub fn in_limits(&self, value: f64) -> bool {
        self.limits.is_none_or(|limits| self.within(limits, value))
    }

    fn within(&self, (least, greatest): (f64, f64), value: f64) -> bool {
        // Temperatures are printed to a tenth of a degree.
        let half_digit = if self.quantity.ends_with("_c") { 0.05 } else { 0.0 };
        (least - half_digit..=greatest + half_digit).contains(&value)
    }
}
