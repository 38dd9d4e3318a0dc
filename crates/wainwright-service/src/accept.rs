//! Whether the caller takes the form that there is (RFC 9110, section 12.5.1).

use actix_web::http::header::{self, HeaderMap};

use crate::problem::{NOT_ACCEPTABLE, Problem};

/// Refuses a request whose `Accept` excludes `media_type`.
pub fn require(headers: &HeaderMap, media_type: &'static str) -> Result<(), Problem> {
    let mut fields = headers.get_all(header::ACCEPT).peekable();
    // By far the most common first.
    let taken = match fields.peek() {
        None => true,
        Some(only)
            if matches!(only.as_bytes(), b"*/*" | b"application/json")
                && media_type == "application/json" =>
        {
            true
        }
        Some(_) => accepts(
            fields.filter_map(|field| field.to_str().ok()).flat_map(|field| field.split(',')),
            media_type,
        ),
    };
    if taken {
        return Ok(());
    }
    Err(Problem::new(&NOT_ACCEPTABLE, format!("What there is here is {media_type}, and Accept excludes it."))
        .with("available", vec![media_type]))
}

/// Which of the forms the caller prefers: of those with the greatest weight the first.
///
/// # Errors
///
/// `Accept` excludes all of them.
pub fn preferred(headers: &HeaderMap, forms: &[&'static str]) -> Result<usize, Problem> {
    if !headers.contains_key(header::ACCEPT) {
        return Ok(0);
    }
    let fields = || headers.get_all(header::ACCEPT).filter_map(|field| field.to_str().ok());
    let mut best: Option<(usize, f32)> = None;
    for (place, form) in forms.iter().enumerate() {
        let weight = weight(fields().flat_map(|field| field.split(',')), form);
        if weight > best.map_or(0.0, |(_, weight)| weight) {
            best = Some((place, weight));
        }
    }
    best.map(|(place, _)| place).ok_or_else(|| {
        let all = forms.join(" and ");
        Problem::new(&NOT_ACCEPTABLE, format!("What there is here is {all}, and Accept excludes both."))
            .with("available", forms.to_vec())
    })
}

/// Does the most specific of the ranges that match have a weight above 0?
fn accepts<'a>(ranges: impl Iterator<Item = &'a str>, media_type: &str) -> bool {
    weight(ranges, media_type) > 0.0
}

/// The weight of the most specific of the ranges that match; 0 where none does.
fn weight<'a>(ranges: impl Iterator<Item = &'a str>, media_type: &str) -> f32 {
    let group = media_type.split('/').next().unwrap_or_default();
    let mut best = (0, 0.0);
    for range in ranges {
        let mut pieces = range.split(';').map(str::trim);
        let name = pieces.next().unwrap_or_default();
        let specific = if name.eq_ignore_ascii_case(media_type) {
            3
        } else if name.split_once('/').is_some_and(|(g, any)| g.eq_ignore_ascii_case(group) && any == "*") {
            2
        } else if name == "*/*" {
            1
        } else {
            continue;
        };
        let weight = pieces.find_map(|piece| piece.strip_prefix("q=").or(piece.strip_prefix("Q=")));
        if specific > best.0 {
            best = (specific, weight.map_or(1.0, |q| q.parse().unwrap_or(0.0)));
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_most_specific_range_decides() {
        let takes = |field: &str| accepts(field.split(','), "application/json");
        for yes in [
            "*/*",
            "application/*",
            "text/html, */*;q=0.1",
            "Application/JSON; q=0.2",
            "*/*;q=0, application/json",
        ] {
            assert!(takes(yes), "{yes}");
        }
        for no in ["text/html", "application/json;q=0, */*", "application/jsonx", "", "application/*;q=0.0"] {
            assert!(!takes(no), "{no}");
        }
    }

    #[test]
    fn of_two_forms_the_heavier_is_preferred() {
        let forms = ["text/html", "text/markdown"];
        let of = |field: &'static str| {
            let mut headers = HeaderMap::new();
            headers.insert(header::ACCEPT, header::HeaderValue::from_static(field));
            preferred(&headers, &forms).ok()
        };
        assert_eq!(preferred(&HeaderMap::new(), &forms).ok(), Some(0));
        for (field, form) in [
            ("*/*", Some(0)),
            ("text/*", Some(0)),
            ("text/markdown", Some(1)),
            ("text/html;q=0.5, text/markdown", Some(1)),
            ("text/html;q=0, */*;q=0.1", Some(1)),
            ("application/json", None),
            ("text/*;q=0", None),
        ] {
            assert_eq!(of(field), form, "{field}");
        }
    }
}
