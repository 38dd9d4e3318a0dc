//! Where in the document the reader stands.

use super::fault::ECHOED;

/// A place in a document: a chain of keys, each link borrowed from the reader's stack.
///
/// Nothing is allocated until a fault asks for the JSON Pointer.
#[derive(Debug, Clone, Copy)]
pub struct Place<'a> {
    parent: Option<&'a Place<'a>>,
    token: Token<'a>,
    depth: u16,
}

#[derive(Debug, Clone, Copy)]
enum Token<'a> {
    Root,
    Key(&'a str),
    Index(usize),
}

impl Place<'_> {
    /// The whole document.
    pub const ROOT: Place<'static> = Place { parent: None, token: Token::Root, depth: 0 };

    /// The member `key` of the object at this place.
    pub fn key<'a>(&'a self, key: &'a str) -> Place<'a> {
        Place { parent: Some(self), token: Token::Key(key), depth: self.depth + 1 }
    }

    /// The item `index`, counted from 0, of the list at this place.
    pub fn index(&self, index: usize) -> Place<'_> {
        Place { parent: Some(self), token: Token::Index(index), depth: self.depth + 1 }
    }

    /// How many objects and lists enclose this place.
    pub fn depth(&self) -> u16 {
        self.depth
    }

    /// The JSON Pointer of this place (RFC 6901, string form; `""` is the whole document).
    ///
    /// It ends before a key of more than 64 characters, which comes back to nobody: such a place is pointed at
    /// by the object around it.
    pub fn pointer(&self) -> String {
        let mut pointer = String::new();
        self.push_to(&mut pointer);
        pointer
    }

    /// Appends the tokens from the root to here; false where a long key ended them.
    fn push_to(&self, pointer: &mut String) -> bool {
        if !self.parent.is_none_or(|parent| parent.push_to(pointer)) {
            return false;
        }
        match self.token {
            Token::Root => {}
            Token::Key(key) if is_long(key) => return false,
            Token::Key(key) => push_token(pointer, key),
            Token::Index(index) => push_token(pointer, &index.to_string()),
        }
        true
    }
}

/// Is a key too long to come back?
pub(super) fn is_long(key: &str) -> bool {
    key.chars().nth(ECHOED).is_some()
}

/// Appends one reference token, escaped as RFC 6901 section 3 asks.
fn push_token(pointer: &mut String, token: &str) {
    pointer.push('/');
    for c in token.chars() {
        match c {
            '~' => pointer.push_str("~0"),
            '/' => pointer.push_str("~1"),
            c => pointer.push(c),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pointer_escapes_what_rfc_6901_section_3_says() {
        let root = Place::ROOT;
        let (a, b) = ("a/b", "m~n");
        let parts = root.key(a);
        let inner = parts.key(b);
        assert_eq!(inner.index(3).pointer(), "/a~1b/m~0n/3");
        assert_eq!(root.pointer(), "");
        assert_eq!(inner.index(3).depth(), 3);
    }
    #[test]
    fn a_pointer_ends_before_a_key_of_more_than_64_characters() {
        let root = Place::ROOT;
        let (longest, long) = ("é".repeat(64), "é".repeat(65));
        assert_eq!(root.key(&longest).pointer(), format!("/{longest}"));
        let parts = root.key("parts");
        let part = parts.key(&long);
        assert_eq!(part.key("mass_lb").pointer(), "/parts");
        assert_eq!(root.key(&long).pointer(), "");
    }
}
