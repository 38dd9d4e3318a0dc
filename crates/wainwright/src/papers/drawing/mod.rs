//! Drawings of our own as SVG: lines, boxes, dots and words on a sheet as wide as the print.
//!
//! The few kinds there are (a trailer from the side, bars by month, lines by hour) take less code here than a plotting
//! library takes to be set up, whose words could not be kept from overlapping. A sheet is measured in points and printed one
//! to one, so that words are as large on paper as they say. Gray, black and white alone, told apart by shape and dash.

mod axes;
mod labels;
mod width;

use std::fmt::Write as _;

pub use axes::{Bars, Chart, Trace};
pub use labels::{BASE_PT, LANE_PT, Label, lanes_taken, place};
pub use width::{SIZE_PT, shortened, width_pt};

/// Width of every sheet, as wide as the print on a US Letter page with margins of 3/4 in [pt].
pub const WIDTH_PT: f64 = 504.0;

/// How a shape is drawn; its name is the class that the style sheet knows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// A thin gray line.
    Faint,
    /// A thin line.
    Thin,
    /// A thick line.
    Thick,
    /// A thick line of dashes.
    Dashed,
    /// A thick line of dots.
    Dotted,
    /// White with an outline.
    Open,
    /// Light gray with an outline.
    Pale,
    /// Dark.
    Dark,
}

impl Look {
    fn class(self) -> &'static str {
        match self {
            Self::Faint => "faint",
            Self::Thin => "thin",
            Self::Thick => "thick",
            Self::Dashed => "dashed",
            Self::Dotted => "dotted",
            Self::Open => "open",
            Self::Pale => "pale",
            Self::Dark => "dark",
        }
    }
}

/// Where words begin or end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// They begin at the point.
    Start,
    /// Their middle is at the point.
    Middle,
    /// They end at the point.
    End,
}

#[derive(Debug, Clone, PartialEq)]
enum Shape {
    Line(Vec<[f64; 2]>),
    Area(Vec<[f64; 2]>),
    Circle([f64; 2], f64),
}

/// Words on a sheet.
#[derive(Debug, Clone, PartialEq)]
struct Words {
    x_pt: f64,
    y_pt: f64,
    anchor: Anchor,
    text: String,
}

/// A sheet with what is drawn on it; x from the left, y from the top, in points.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// What it shows, for those who do not see it.
    title: String,
    height_pt: f64,
    shapes: Vec<(Shape, Look)>,
    words: Vec<Words>,
}

impl Drawing {
    /// An empty sheet.
    pub fn new(title: impl Into<String>, height_pt: f64) -> Self {
        Self { title: title.into(), height_pt, shapes: Vec::new(), words: Vec::new() }
    }

    /// Draws a line through points.
    pub fn line(&mut self, points: &[[f64; 2]], look: Look) {
        self.shapes.push((Shape::Line(points.to_vec()), look));
    }

    /// Draws a closed shape.
    pub fn area(&mut self, points: &[[f64; 2]], look: Look) {
        self.shapes.push((Shape::Area(points.to_vec()), look));
    }

    /// Draws a box between two corners.
    pub fn rectangle(&mut self, [left, top]: [f64; 2], [right, bottom]: [f64; 2], look: Look) {
        self.area(&[[left, top], [right, top], [right, bottom], [left, bottom]], look);
    }

    /// Draws a circle.
    pub fn circle(&mut self, center: [f64; 2], radius_pt: f64, look: Look) {
        self.shapes.push((Shape::Circle(center, radius_pt), look));
    }

    /// Writes words; `y_pt` is their base line.
    pub fn words(&mut self, x_pt: f64, y_pt: f64, anchor: Anchor, text: impl Into<String>) {
        self.words.push(Words { x_pt, y_pt, anchor, text: text.into() });
    }

    /// The drawing as an SVG element whose classes the page's style sheet explains.
    ///
    /// - `escaped`  makes text fit to stand in the page
    pub fn svg(&self, escaped: fn(&str) -> String) -> String {
        let mut svg = format!(
            "<svg role=\"img\" viewBox=\"0 0 {} {}\"><title>{}</title>\n",
            at(WIDTH_PT),
            at(self.height_pt),
            escaped(&self.title)
        );
        for (shape, look) in &self.shapes {
            let class = look.class();
            // Writing to a string cannot fail.
            _ = match shape {
                Shape::Line(points) => {
                    writeln!(svg, "<polyline class=\"line {class}\" points=\"{}\"/>", list(points))
                }
                Shape::Area(points) => {
                    writeln!(svg, "<polygon class=\"{class}\" points=\"{}\"/>", list(points))
                }
                Shape::Circle([x, y], radius) => {
                    writeln!(
                        svg,
                        "<circle class=\"{class}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
                        at(*x),
                        at(*y),
                        at(*radius)
                    )
                }
            };
        }
        for words in &self.words {
            let anchor = match words.anchor {
                Anchor::Start => "",
                Anchor::Middle => " class=\"middle\"",
                Anchor::End => " class=\"end\"",
            };
            let text = escaped(&words.text);
            _ = writeln!(
                svg,
                "<text{anchor} x=\"{}\" y=\"{}\">{text}</text>",
                at(words.x_pt),
                at(words.y_pt)
            );
        }
        svg.push_str("</svg>");
        svg
    }

    /// The room that each piece of words takes: left, top, right, bottom.
    #[cfg(test)]
    pub fn rooms(&self) -> Vec<[f64; 4]> {
        let room = |words: &Words| {
            let width = width_pt(&words.text);
            let left = match words.anchor {
                Anchor::Start => words.x_pt,
                Anchor::Middle => words.x_pt - width / 2.0,
                Anchor::End => words.x_pt - width,
            };
            [left, words.y_pt - 0.75 * SIZE_PT, left + width, words.y_pt + 0.22 * SIZE_PT]
        };
        self.words.iter().map(room).collect()
    }

    /// Fails unless all words stand on the sheet and none on another.
    #[cfg(test)]
    pub fn assert_legible(&self) {
        let rooms = self.rooms();
        for (i, one) in rooms.iter().enumerate() {
            let text = &self.words[i].text;
            let within =
                one[0] >= -0.01 && one[1] >= 0.0 && one[2] <= WIDTH_PT + 0.01 && one[3] <= self.height_pt;
            assert!(within, "{text}: {one:?} on a sheet {} high", self.height_pt);
            for (j, other) in rooms.iter().enumerate().skip(i + 1) {
                let apart =
                    one[2] <= other[0] || other[2] <= one[0] || one[3] <= other[1] || other[3] <= one[1];
                assert!(apart, "{text} and {}: {one:?} {other:?}", self.words[j].text);
            }
        }
    }
}

/// A coordinate. It is for the program that draws, not for people; what is no number is drawn at 0.
fn at(value: f64) -> String {
    format!("{:.1}", if value.is_finite() { value } else { 0.0 })
}

fn list(points: &[[f64; 2]]) -> String {
    points.iter().map(|[x, y]| format!("{},{}", at(*x), at(*y))).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_escaped_and_coordinates_are_numbers() {
        let mut drawing = Drawing::new("a < b", 20.0);
        drawing.words(f64::NAN, 10.0, Anchor::End, "x");
        drawing.circle([1.0, 2.0], 3.0, Look::Pale);
        let svg = drawing.svg(|text| text.replace('<', "&lt;"));
        assert!(svg.contains("<title>a &lt; b</title>"), "{svg}");
        assert!(svg.contains("<text class=\"end\" x=\"0.0\" y=\"10.0\">x</text>"), "{svg}");
        assert!(svg.contains("<circle class=\"pale\" cx=\"1.0\" cy=\"2.0\" r=\"3.0\"/>"), "{svg}");
    }
}
