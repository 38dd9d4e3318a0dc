//! The papers as one page of HTML: its style and its drawings stand in it, it runs nothing and loads nothing.

use std::fmt::Write as _;

use super::model::{Block, Column, Figure, Note, Paper, Section, Table};

const STYLE: &str = include_str!("style.css");
/// The page itself forbids what it does not need, wherever it is opened from.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";
/// A table with more columns than this is laid out as cards where the window is narrow.
const BROAD: usize = 2;
/// A table with no more rows than this stays on one page.
const SHORT: usize = 16;

/// Text as it may stand in a page, between quotes as well.
pub fn escaped(plain: &str) -> String {
    let mut text = String::with_capacity(plain.len());
    for letter in plain.chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            '\'' => text.push_str("&#39;"),
            // What a page may not hold, and what would turn the direction of the words after it.
            '\u{0}'..='\u{8}' | '\u{b}'..='\u{1f}' | '\u{7f}' => text.push('\u{fffd}'),
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {}
            letter => text.push(letter),
        }
    }
    // A figure and its unit stay on one line.
    text.replace(" %", "\u{a0}%").replace(" °", "\u{a0}°")
}

/// The page.
pub fn html(paper: &Paper) -> String {
    let name = escaped(&paper.name);
    let mut page = format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n\
         <title>{name}</title>\n<style>\n{}</style>\n</head>\n<body>\n<main>\n",
        STYLE.replace("FOOT", paper.foot)
    );
    for (place, one) in paper.sections.iter().enumerate() {
        page.push_str("<section>\n");
        if place == 0 {
            // Writing to a string cannot fail.
            _ = writeln!(page, "<h1>{name}</h1>\n<p class=\"subtitle\">{}</p>", escaped(&paper.subtitle));
        }
        section(&mut page, one);
        page.push_str("</section>\n");
    }
    page.push_str("</main>\n</body>\n</html>\n");
    page
}

fn section(page: &mut String, section: &Section) {
    if !section.heading.is_empty() {
        _ = writeln!(page, "<h2>{}</h2>", escaped(section.heading));
    }
    for one in &section.blocks {
        block(page, one);
    }
}

fn block(page: &mut String, block: &Block) {
    // Writing to a string cannot fail.
    _ = match block {
        Block::Heading(text) => writeln!(page, "<h3>{}</h3>", escaped(text)),
        Block::Text(text) => writeln!(page, "<p>{}</p>", escaped(text)),
        Block::Verdict(word, sentence) => writeln!(
            page,
            "<div class=\"verdict\"><strong>{}</strong><p>{}</p></div>",
            escaped(word),
            escaped(sentence)
        ),
        Block::List(items) => {
            let items: String = items.iter().map(|item| format!("<li>{}</li>\n", escaped(item))).collect();
            writeln!(page, "<ul>\n{items}</ul>")
        }
        Block::Table(rows) => writeln!(page, "{}", table(rows)),
        Block::Figure(Figure { drawing, caption, .. }) => writeln!(
            page,
            "<figure>{}<figcaption>{}</figcaption></figure>",
            drawing.svg(escaped),
            escaped(caption)
        ),
        Block::Notes(notes) => {
            notes.iter().for_each(|one| page.push_str(&note(one)));
            Ok(())
        }
        Block::Together(blocks) => {
            page.push_str("<div class=\"together\">\n");
            blocks.iter().for_each(|one| self::block(page, one));
            writeln!(page, "</div>")
        }
        Block::Lines(lines) => {
            let lines: String = lines.iter().map(|line| format!("<p>{}</p>\n", escaped(line))).collect();
            writeln!(page, "<div class=\"byhand\">\n{lines}</div>")
        }
    };
}

fn note(note: &Note) -> String {
    let source = match note.source.is_empty() {
        true => String::new(),
        false => format!("<p class=\"source\">{}</p>", escaped(&note.source)),
    };
    format!(
        "<div class=\"note note-{}\"><p><strong>{}:</strong> {}</p><p>{}</p>{source}</div>\n",
        note.severity,
        escaped(&capitalized(note.severity)),
        escaped(&note.message),
        escaped(&note.remedy)
    )
}

/// The word with a capital first.
pub fn capitalized(word: &str) -> String {
    let mut letters = word.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().collect::<String>() + letters.as_str())
        .unwrap_or_default()
}

/// A place in the build, which may be broken after each piece of it.
fn breakable(place: &str) -> String {
    escaped(place).replace('/', "/<wbr>").replace('_', "_<wbr>")
}

fn class(column: Column) -> &'static str {
    match column {
        Column::Words => "words",
        Column::Place => "place",
        Column::Figures => "figure",
        Column::Blank => "blank",
    }
}

fn table(table: &Table) -> String {
    let width = if table.columns.len() > BROAD { "broad" } else { "slim" };
    let length = if table.rows.len() > SHORT { " long" } else { " short" };
    let mut html = format!("<table class=\"{width}{length}\">\n<thead><tr>");
    for (head, kind) in &table.columns {
        let kind = if *kind == Column::Blank { Column::Words } else { *kind };
        _ = write!(html, "<th scope=\"col\" class=\"{}\">{}</th>", class(kind), escaped(head));
    }
    html.push_str("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        html.push_str("<tr>");
        for ((head, kind), cell) in table.columns.iter().zip(row) {
            let (class, head) = (class(*kind), escaped(head));
            let cell = if *kind == Column::Place { breakable(cell) } else { escaped(cell) };
            _ = write!(html, "<td class=\"{class}\" data-head=\"{head}\">{cell}</td>");
        }
        html.push_str("</tr>\n");
    }
    html.push_str("</tbody>\n</table>");
    html
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_from_the_caller_is_markup() {
        assert_eq!(escaped("<b a='\"'>&"), "&lt;b a=&#39;&quot;&#39;&gt;&amp;");
        assert_eq!(escaped("a\u{0}b\u{202e}c\nd"), "a\u{fffd}bc\nd");
    }

    #[test]
    fn a_table_names_its_columns_in_every_cell() {
        let mut one =
            Table::new(&[("State", Column::Words), ("Gross, lb", Column::Figures), ("Scale", Column::Blank)]);
        one.row(vec!["<out>".into(), "1".into(), String::new()]);
        let html = table(&one);
        assert!(html.contains("<td class=\"words\" data-head=\"State\">&lt;out&gt;</td>"), "{html}");
        assert!(html.contains("<th scope=\"col\" class=\"words\">Scale</th>"), "{html}");
        assert!(html.starts_with("<table class=\"broad short\">"), "{html}");
    }
}
