//! How many tests passed and failed, read from what the test runners say.

/// Numbers of tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Tests that passed.
    pub passed: usize,
    /// Tests that failed, or could not be run for an error.
    pub failed: usize,
}

impl Counts {
    /// One check that passed or failed as a whole.
    pub fn of_one(success: bool) -> Self {
        Self { passed: success.into(), failed: (!success).into() }
    }

    fn add(&mut self, line: &str) {
        let words: Vec<&str> = line.split_whitespace().collect();
        for pair in words.windows(2) {
            let Ok(number) = pair[0].parse::<usize>() else { continue };
            match pair[1].trim_end_matches([',', ';']) {
                "passed" => self.passed += number,
                "failed" | "error" | "errors" => self.failed += number,
                _ => {}
            }
        }
    }
}

/// The sum over all test programs that cargo ran.
pub fn cargo_test(text: &str) -> Counts {
    let mut counts = Counts::default();
    text.lines().filter(|line| line.starts_with("test result:")).for_each(|line| counts.add(line));
    counts
}

/// What pytest says in the end.
pub fn pytest(text: &str) -> Counts {
    let mut counts = Counts::default();
    if let Some(line) = text.lines().rfind(|line| line.contains(" in ")) {
        counts.add(line);
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cargo_tests_add_up_over_programs() {
        let text = "test result: ok. 12 passed; 0 failed; 1 ignored; 0 measured\n\
                    test a ... ok\ntest result: FAILED. 3 passed; 2 failed; 0 ignored\n";
        assert_eq!(cargo_test(text), Counts { passed: 15, failed: 2 });
    }

    #[test]
    fn pytest_errors_count_as_failures() {
        let text =
            "FAILED tests/test_a.py in a way\n==== 1 failed, 50 passed, 6 deselected, 2 errors in 0.39s ====";
        assert_eq!(pytest(text), Counts { passed: 50, failed: 3 });
        assert_eq!(pytest("no tests ran in 0.01s"), Counts::default());
    }
}
