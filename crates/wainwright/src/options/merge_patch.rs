//! JSON Merge Patch. Source: RFC 7396.

use serde_json::{Map, Value};

/// Applies a patch to a value, as RFC 7396 section 2 says.
///
/// Where patch and value are both objects they merge, member by member; `null` in a patch removes a member; whatever else
/// a patch holds replaces what was there, arrays whole. New members stand after those there were, in the patch's order.
///
/// - `target`  the value, which is changed
/// - `patch`   the patch; one that is no object replaces the value whole
pub fn apply(target: &mut Value, patch: &Value) {
    let Value::Object(members) = patch else {
        *target = patch.clone();
        return;
    };
    if !target.is_object() {
        *target = Map::new().into();
    }
    let Value::Object(object) = target else { return };
    for (key, change) in members {
        if change.is_null() {
            object.shift_remove(key);
        } else if let Some(member) = object.get_mut(key) {
            apply(member, change);
        } else {
            let mut member = Value::Null;
            apply(&mut member, change);
            object.insert(key.clone(), member);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rows of RFC 7396 appendix A (from memory): original, patch, result.
    macro_rules! appendix_a {
        ($($name:ident: $original:literal, $patch:literal, $result:literal;)+) => {
            $(
                #[test]
                fn $name() {
                    let parsed = |json: &str| -> Value { serde_json::from_str(json).unwrap() };
                    let mut target = parsed($original);
                    apply(&mut target, &parsed($patch));
                    assert_eq!(target, parsed($result));
                }
            )+
        };
    }

    appendix_a! {
        row_01_a_member_is_replaced: r#"{"a":"b"}"#, r#"{"a":"c"}"#, r#"{"a":"c"}"#;
        row_02_a_member_is_added: r#"{"a":"b"}"#, r#"{"b":"c"}"#, r#"{"a":"b","b":"c"}"#;
        row_03_the_only_member_is_removed: r#"{"a":"b"}"#, r#"{"a":null}"#, "{}";
        row_04_one_of_two_members_is_removed: r#"{"a":"b","b":"c"}"#, r#"{"a":null}"#, r#"{"b":"c"}"#;
        row_05_an_array_is_replaced_by_text: r#"{"a":["b"]}"#, r#"{"a":"c"}"#, r#"{"a":"c"}"#;
        row_06_text_is_replaced_by_an_array: r#"{"a":"c"}"#, r#"{"a":["b"]}"#, r#"{"a":["b"]}"#;
        row_07_members_of_a_member_merge: r#"{"a":{"b":"c"}}"#, r#"{"a":{"b":"d","c":null}}"#, r#"{"a":{"b":"d"}}"#;
        row_08_an_array_of_objects_is_replaced: r#"{"a":[{"b":"c"}]}"#, r#"{"a":[1]}"#, r#"{"a":[1]}"#;
        row_09_an_array_replaces_an_array: r#"["a","b"]"#, r#"["c","d"]"#, r#"["c","d"]"#;
        row_10_an_array_replaces_an_object: r#"{"a":"b"}"#, r#"["c"]"#, r#"["c"]"#;
        row_11_null_replaces_an_object: r#"{"a":"foo"}"#, "null", "null";
        row_12_text_replaces_an_object: r#"{"a":"foo"}"#, r#""bar""#, r#""bar""#;
        row_13_a_null_that_was_there_stays: r#"{"e":null}"#, r#"{"a":1}"#, r#"{"e":null,"a":1}"#;
        row_14_an_object_replaces_an_array: "[1,2]", r#"{"a":"b","c":null}"#, r#"{"a":"b"}"#;
        row_15_nulls_of_a_new_member_leave_nothing: "{}", r#"{"a":{"bb":{"ccc":null}}}"#, r#"{"a":{"bb":{}}}"#;
    }

    #[test]
    fn members_keep_their_order_and_new_ones_follow_in_the_patchs() {
        let mut target = serde_json::json!({"z": 1, "a": {"y": 1}, "m": 2});
        apply(&mut target, &serde_json::json!({"c": 1, "a": {"y": 2, "b": 3}, "m": null, "b": {"q": null}}));
        assert_eq!(target.to_string(), r#"{"z":1,"a":{"y":2,"b":3},"c":1,"b":{}}"#);
    }
}
