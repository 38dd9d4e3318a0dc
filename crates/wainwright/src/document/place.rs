//! Where in the document the reader stands.

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
    pub fn pointer(&self) -> String {
        let mut pointer = self.parent.map(Place::pointer).unwrap_or_default();
        match self.token {
            Token::Root => {}
            Token::Key(key) => push_token(&mut pointer, key),
            Token::Index(index) => push_token(&mut pointer, &index.to_string()),
        }
        pointer
    }
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
}
