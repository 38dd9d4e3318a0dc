//! Where in the request a member of the patched build came from.

use serde_json::Value;

use super::catalogue::Position;
use super::choice::Choice;
use super::request::Packages;

/// The place in the request that a place in the build of a choice came from, as JSON Pointers.
///
/// That is the last patch that sets it, else the base. What is not there points to the patch that removed it, else to
/// where it would stand in what gives most of the objects around it.
pub fn origin(packages: &Packages, choice: &Choice, pointer: &str) -> String {
    let tokens: Vec<String> =
        pointer.split('/').skip(1).map(|token| token.replace("~1", "/").replace("~0", "~")).collect();
    let patches = choice.chosen().filter_map(|p| Some((p, packages.option(p)?.patch.as_ref()?)));
    let patches: Vec<(Position, &Value)> = patches.collect();
    let in_patch = |position: Position, tokens_used: usize| match packages.groups_at {
        Some(_) => packages.patch_at(position) + prefix(pointer, tokens_used),
        None => packages.patch_at(position),
    };
    let whole = tokens.len();
    let (mut best, mut depth) = (None, reach(packages.base, &tokens).depth());
    for (position, patch) in &patches {
        match reach(patch, &tokens) {
            // Set here, or within something that is set here whole.
            Reach::Set => (best, depth) = (Some((*position, whole)), whole),
            // Taken away here.
            Reach::Removed(at) => (best, depth) = (Some((*position, at)), at),
            Reach::Around(at) if at > depth => (best, depth) = (Some((*position, whole)), at),
            Reach::Around(_) => {}
        }
    }
    match best {
        Some((position, used)) => in_patch(position, used),
        None if packages.base_at == "/catalogue" => packages.base_at.to_owned(),
        None => format!("{}{pointer}", packages.base_at),
    }
}

/// The first tokens of a pointer.
fn prefix(pointer: &str, tokens: usize) -> &str {
    let end = pointer.match_indices('/').nth(tokens).map_or(pointer.len(), |(at, _)| at);
    &pointer[..end]
}

/// How far a document reaches along a chain of keys.
enum Reach {
    /// To its end, or to something other than an object on the way.
    Set,
    /// To a null, after so many keys.
    Removed(usize),
    /// To an object, after so many keys, that does not have the next.
    Around(usize),
}

impl Reach {
    fn depth(&self) -> usize {
        match self {
            Self::Set => usize::MAX,
            Self::Removed(depth) | Self::Around(depth) => *depth,
        }
    }
}

fn reach(document: &Value, tokens: &[String]) -> Reach {
    let mut here = document;
    for (depth, token) in tokens.iter().enumerate() {
        let Value::Object(object) = here else { return Reach::Set };
        match object.get(token) {
            None => return Reach::Around(depth),
            Some(Value::Null) => return Reach::Removed(depth + 1),
            Some(member) => here = member,
        }
    }
    Reach::Set
}
