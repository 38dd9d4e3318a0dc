//! A number of a document that was read, changed where it stands.

/// Where a number stands.
#[derive(Debug)]
pub enum Slot<'v> {
    /// A number.
    Real(&'v mut f64),
    /// A count.
    Whole(&'v mut u32),
}

impl Slot<'_> {
    /// Puts another number there. It is not held against the field's bounds.
    ///
    /// - `value`  for a count whole, and within what it can hold
    pub fn put(self, value: f64) {
        match self {
            Self::Real(slot) => *slot = value,
            Self::Whole(slot) => *slot = value as u32,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Record;
    use super::super::fixture::chest;

    #[test]
    fn a_number_is_changed_where_it_stands() {
        let text = r#"{"length_in": 1, "drawers": {"a": {"width_in": 2}}}"#;
        let mut read = chest(text).unwrap().0;
        for (keys, value) in
            [(&["length_in"][..], 3.0), (&["drawers", "a", "width_in"], 4.0), (&["depth_in"], 5.0)]
        {
            read.slot(keys).unwrap().put(value);
        }
        let other = r#"{"length_in": 3, "depth_in": 5, "drawers": {"a": {"width_in": 4}}}"#;
        assert_eq!(read, chest(other).unwrap().0);
    }

    #[test]
    fn where_no_number_stands_there_is_none() {
        let mut read = chest(r#"{"length_in": 1}"#).unwrap().0;
        for keys in
            [&[][..], &["locked"], &["lid", "width_in"], &["drawers", "a", "width_in"], &["length_in", "x"]]
        {
            assert!(read.slot(keys).is_none(), "{keys:?}");
        }
    }
}
