//! Text in lines and fields.

/// The lines of a text, each with its number from 1 on. A line ends with LF, CR LF or CR.
#[derive(Debug, Clone)]
pub(super) struct Lines<'a> {
    rest: Option<&'a str>,
    number: usize,
}

impl<'a> Lines<'a> {
    /// The lines of a text.
    pub(super) fn of(text: &'a str) -> Self {
        Self { rest: Some(text), number: 0 }
    }

    /// Number of the line that came last.
    pub(super) fn number(&self) -> usize {
        self.number
    }
}

impl<'a> Iterator for Lines<'a> {
    type Item = (usize, &'a str);

    fn next(&mut self) -> Option<Self::Item> {
        let rest = self.rest?;
        self.number += 1;
        let Some(end) = rest.bytes().position(|byte| matches!(byte, b'\n' | b'\r')) else {
            self.rest = None;
            return Some((self.number, rest));
        };
        let (line, ending) = rest.split_at(end);
        self.rest = Some(ending.strip_prefix("\r\n").unwrap_or(&ending[1..]));
        Some((self.number, line))
    }
}

/// So many fields of a line of words are told apart; the rest are one. The longest such line has 71.
const FIELDS_MOST: usize = 1000;

/// The fields of a line of words: between commas, but for those in double quotes.
pub(super) fn fields(line: &str) -> Vec<&str> {
    let mut fields = Vec::new();
    let (mut start, mut is_quoted) = (0, false);
    for (i, byte) in line.bytes().enumerate() {
        match byte {
            b'"' => is_quoted = !is_quoted,
            b',' if !is_quoted && fields.len() + 1 < FIELDS_MOST => {
                fields.push(bare(&line[start..i]));
                start = i + 1;
            }
            _ => {}
        }
    }
    fields.push(bare(&line[start..]));
    fields
}

/// A field without the blanks and quotes around it.
pub(super) fn bare(field: &str) -> &str {
    let field = field.trim();
    field.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).map_or(field, str::trim)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_end_in_any_of_the_three_ways() {
        let text = "a\nb\r\nc\rd\n\ré\n";
        let lines: Vec<_> = Lines::of(text).collect();
        assert_eq!(lines, [(1, "a"), (2, "b"), (3, "c"), (4, "d"), (5, ""), (6, "é"), (7, "")]);
    }

    #[test]
    fn commas_in_quotes_are_no_ends_of_fields() {
        assert_eq!(fields(r#"1," Heron, Lake ",x, "",é"#), ["1", "Heron, Lake", "x", "", "é"]);
        assert_eq!(fields(""), [""]);
        assert_eq!(fields(&",".repeat(1_000_000)).len(), FIELDS_MOST);
        assert_eq!(fields(r#"a,"b,c"#), ["a", r#""b,c"#]);
    }
}
