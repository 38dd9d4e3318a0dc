//! `cargo xtask sizes`: how long files and functions are. Not a gate: read the largest ten.

use std::fs;
use std::path::{Path, PathBuf};

use crate::workspace;

const LARGEST: usize = 10;

/// So many lines, and where.
struct Size {
    lines: usize,
    place: String,
}

/// Prints the sizes of all Rust and Python sources.
pub fn run() -> Result<(), String> {
    let root = workspace::root();
    let mut sources = Vec::new();
    for folder in ["crates", "python"] {
        gather(&root.join(folder), &mut sources).map_err(|error| format!("{folder}: {error}"))?;
    }
    let (mut files, mut functions) = (Vec::new(), Vec::new());
    for path in sources {
        let text = fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
        let name = path.strip_prefix(root).unwrap_or(&path).display().to_string();
        functions.extend(sizes_of_functions(&name, &text));
        files.push(Size { lines: text.lines().count(), place: name });
    }
    report("files", files);
    report("functions, tests left out", functions);
    Ok(())
}

fn gather(folder: &Path, sources: &mut Vec<PathBuf>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            gather(&path, sources)?;
        } else if path.extension().is_some_and(|kind| kind == "rs" || kind == "py") {
            sources.push(path);
        }
    }
    Ok(())
}

fn report(what: &str, mut sizes: Vec<Size>) {
    sizes.sort_by(|a, b| b.lines.cmp(&a.lines).then_with(|| a.place.cmp(&b.place)));
    let at = |share: f64| sizes.get((sizes.len() as f64 * share) as usize).map_or(0, |size| size.lines);
    println!("{} {what}: median {} lines, 90 % up to {}", sizes.len(), at(0.5), at(0.1));
    for size in sizes.iter().take(LARGEST) {
        println!("{:6}  {}", size.lines, size.place);
    }
}

/// The functions of formatted source text, signature to closing brace, up to its tests.
fn sizes_of_functions(file: &str, text: &str) -> Vec<Size> {
    let is_test = file.contains("/tests/") || file.contains("/benches/");
    let lines: Vec<&str> = text.lines().take_while(|line| *line != "#[cfg(test)]" && !is_test).collect();
    let starts = lines.iter().enumerate().filter_map(|(start, line)| Some((start, name(line)?)));
    starts
        .filter_map(|(start, name)| {
            let lines = if file.ends_with(".rs") { rust(&lines[start..])? } else { python(&lines[start..]) };
            Some(Size { lines, place: format!("{file}:{} {name}", start + 1) })
        })
        .collect()
}

/// The name of the function that a line begins.
fn name(line: &str) -> Option<&str> {
    let words = ["pub ", "pub(crate) ", "pub(super) ", "const ", "async "];
    let mut rest = line.trim_start();
    while let Some(after) = words.iter().find_map(|word| rest.strip_prefix(word)) {
        rest = after;
    }
    let rest = rest.strip_prefix("fn ").or_else(|| rest.strip_prefix("def "))?;
    rest.split(['(', '<', '[']).next()
}

fn indentation(line: &str) -> usize {
    line.len() - line.trim_start().len()
}

/// Lines to the closing brace; none for a signature without a body.
fn rust(lines: &[&str]) -> Option<usize> {
    let indent = indentation(lines[0]);
    let end = lines.iter().position(|line| {
        indentation(line) == indent && (line.ends_with('}') || line.ends_with(';') || line.ends_with("},"))
    })?;
    (!lines[end].ends_with(';')).then_some(end + 1)
}

/// Lines as long as they are indented deeper, a signature's closing parenthesis aside.
fn python(lines: &[&str]) -> usize {
    let indent = indentation(lines[0]);
    let inside =
        |line: &&&str| line.is_empty() || indentation(line) > indent || line.trim_start().starts_with(')');
    let body = lines[1..].iter().take_while(inside);
    let blank_at_the_end = body.clone().fold(0, |blank, line| if line.is_empty() { blank + 1 } else { 0 });
    1 + body.count() - blank_at_the_end
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sizes(file: &str, text: &str) -> Vec<(usize, String)> {
        sizes_of_functions(file, text).into_iter().map(|size| (size.lines, size.place)).collect()
    }

    #[test]
    fn rust_functions_end_at_their_brace() {
        let text = "trait A {\n    fn none(&self);\n    fn one(&self) -> u8 {\n        1\n    }\n}\n\
                    pub const fn two() {}\n#[cfg(test)]\nfn test() {}\n";
        assert_eq!(sizes("a.rs", text), [(3, "a.rs:3 one".to_owned()), (1, "a.rs:7 two".to_owned())]);
    }

    #[test]
    fn python_functions_end_with_their_indentation() {
        let text = "def one(\n    a: int,\n) -> int:\n    return a\n\n\nclass B:\n    def two(self) -> None:\n        pass\n";
        assert_eq!(sizes("a.py", text), [(4, "a.py:1 one".to_owned()), (2, "a.py:8 two".to_owned())]);
    }
}
