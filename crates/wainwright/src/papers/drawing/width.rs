//! How wide words are in a drawing.

/// Size of all words in drawings [pt].
pub const SIZE_PT: f64 = 9.0;

/// Room that a line of words takes at most [pt].
///
/// Widths of the widest of the usual sans-serif faces by the kind of character, rounded up (measured on a common
/// free one), so that words in a narrower face fit all the more. A character that is not of ASCII counts as a full square.
pub fn width_pt(text: &str) -> f64 {
    text.chars().map(|letter| SIZE_PT * of_letter(letter)).sum()
}

/// Room of one character, by the size of the words.
fn of_letter(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | '\'' | ' ' | '.' | ',' | ':' | ';' | '|' => 0.34,
        'f' | 'r' | 't' | '(' | ')' | '-' | 'I' | 'J' => 0.42,
        '°' => 0.5,
        'w' | '+' | '=' | '<' | '>' | '%' | 'M' | 'O' | 'Q' | 'G' | 'D' | 'H' | 'N' | 'U' | '×' => 0.96,
        'm' | 'W' | '@' => 1.0,
        'A'..='Z' => 0.74,
        letter if letter.is_ascii() => 0.65,
        _ => 1.0,
    }
}

/// The text with at most so many characters.
pub fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let kept: String = text.chars().take(most.saturating_sub(2)).collect();
    format!("{}...", kept.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn longer_words_are_wider() {
        assert!(width_pt("axle") < width_pt("axle front"));
        assert_eq!(width_pt(""), 0.0);
        assert!((width_pt("m") - 9.0).abs() < 1e-12);
    }

    #[test]
    fn long_words_are_cut() {
        assert_eq!(shortened("refrigerator", 12), "refrigerator");
        assert_eq!(shortened("wall lining insulation", 12), "wall linin...");
    }
}
