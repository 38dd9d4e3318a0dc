//! stand-in
use crate::document::Options;
/// x
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Material {
    /// x
    Steel,
    /// x
    Polyiso,
}
impl Options for Material {
    const WORDS: &'static [(&'static str, Self)] = &[("steel", Self::Steel), ("polyiso", Self::Polyiso)];
}
