//! The papers as Markdown. Drawings are left out; where no table has the same figures one is given in their place.

use std::fmt::Write as _;

use super::html::capitalized;
use super::model::{Block, Column, Figure, Paper, Table};

/// The text.
pub fn markdown(paper: &Paper) -> String {
    let mut text = format!("# {}\n\n{}\n", escaped(&paper.name), line(&paper.subtitle));
    for section in &paper.sections {
        if !section.heading.is_empty() {
            // Writing to a string cannot fail.
            _ = write!(text, "\n## {}\n", section.heading);
        }
        for one in &section.blocks {
            text.push('\n');
            block(&mut text, one);
        }
    }
    _ = write!(text, "\n---\n\n{}\n", paper.foot);
    text
}

fn block(text: &mut String, block: &Block) {
    // Writing to a string cannot fail.
    _ = match block {
        Block::Heading(words) => writeln!(text, "### {}", escaped(words)),
        Block::Text(words) => writeln!(text, "{}", line(words)),
        Block::Verdict(word, sentence) => writeln!(text, "**{}.** {}", escaped(word), escaped(sentence)),
        Block::List(items) => items.iter().try_for_each(|item| writeln!(text, "- {}", line(item))),
        Block::Table(rows) => table(text, rows),
        Block::Figure(Figure { caption, data: Some(rows), .. }) => {
            writeln!(text, "{}\n", line(caption)).and_then(|()| table(text, rows))
        }
        Block::Figure(Figure { caption, .. }) => writeln!(text, "{}", line(caption)),
        Block::Notes(notes) => notes.iter().try_for_each(|note| {
            let (severity, message, remedy) =
                (capitalized(note.severity), escaped(&note.message), escaped(&note.remedy));
            write!(text, "- **{severity}:** {message} {remedy}")?;
            if note.source.is_empty() {
                writeln!(text)
            } else {
                writeln!(text, " ({})", escaped(&note.source))
            }
        }),
        Block::Together(blocks) => {
            for (i, one) in blocks.iter().enumerate() {
                if i > 0 {
                    text.push('\n');
                }
                self::block(text, one);
            }
            Ok(())
        }
        Block::Lines(lines) => {
            lines.iter().try_for_each(|what| writeln!(text, "- {what}: ____________________"))
        }
    };
}

fn table(text: &mut String, table: &Table) -> std::fmt::Result {
    let row_of = |cells: Vec<String>| format!("| {} |", cells.join(" | "));
    writeln!(text, "{}", row_of(table.columns.iter().map(|(head, _)| escaped(head)).collect()))?;
    let rule = |kind: &Column| if *kind == Column::Figures { "---:" } else { "---" }.to_owned();
    writeln!(text, "{}", row_of(table.columns.iter().map(|(_, kind)| rule(kind)).collect()))?;
    table
        .rows
        .iter()
        .try_for_each(|row| writeln!(text, "{}", row_of(row.iter().map(|cell| escaped(cell)).collect())))
}

/// Text in which nothing is taken for markup, wherever on a line it stands. A `_` within a word is none.
fn escaped(plain: &str) -> String {
    let mut text = String::with_capacity(plain.len());
    let mut letters = plain.chars().peekable();
    let mut before = ' ';
    while let Some(letter) = letters.next() {
        let after = letters.peek().copied().unwrap_or(' ');
        match letter {
            '\\' | '`' | '*' | '[' | ']' | '<' | '>' | '|' | '~' | '&' => text.extend(['\\', letter]),
            '_' if !(before.is_alphanumeric() && after.is_alphanumeric()) => text.extend(['\\', letter]),
            letter if letter.is_control() => text.push(' '),
            letter => text.push(letter),
        }
        before = letter;
    }
    text
}

/// Text that begins a line, where more would be taken for markup: headings, lists, rules.
fn line(plain: &str) -> String {
    let text = escaped(plain);
    let number = text.bytes().take_while(u8::is_ascii_digit).count();
    let rest = &text[number..];
    if number > 0 && (rest.starts_with(". ") || rest.starts_with(") ")) {
        return format!("{}\\{rest}", &text[..number]);
    }
    if text.starts_with(['#', '+', '-', '=']) { format!("\\{text}") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_from_the_caller_is_markup() {
        assert_eq!(escaped("<b>|[x](y)"), "\\<b\\>\\|\\[x\\](y)");
        assert_eq!(escaped("floor_rubber _x_ *"), "floor_rubber \\_x\\_ \\*");
        assert_eq!(line("# a\nb"), "\\# a b");
        assert_eq!((line("1. a"), line("1.5 a")), ("1\\. a".to_owned(), "1.5 a".to_owned()));
        assert_eq!((line("- a"), escaped("-4 °F")), ("\\- a".to_owned(), "-4 °F".to_owned()));
    }
}
