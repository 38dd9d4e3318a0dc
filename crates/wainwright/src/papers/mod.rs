//! The hand-over papers of a build: what the shop gives the buyer with the trailer.
//!
//! A page or two for each subject, put together from the build and its evaluation as a small document of its own
//! (`model`: sections, paragraphs, tables, drawings), which two writers turn into one self-contained page of HTML (`html`)
//! or into Markdown (`markdown`). What is on which page stands in a file of its own name.
//!
//! Drawings are SVG made by `drawing`, not by a plotting library: three kinds of drawing need lines, boxes and words alone,
//! their words must never overlap whatever the build holds, and they must be legible in black and white.

mod circuits;
mod cooling;
mod drawing;
mod energy;
mod first_page;
mod html;
mod last_pages;
mod loading_guide;
mod markdown;
mod model;
mod side_view;
mod water;
mod weights;
mod words;

use crate::build::Build;
use crate::evaluate::EvaluateReport;
use model::Paper;

/// What stands at the foot of every page.
const FOOT: &str = "An estimate, not an approval: weigh it.";

/// The hand-over papers of one build.
#[derive(Debug)]
pub struct Papers(Paper);

impl Papers {
    /// The papers of a build and of what all questions say of it.
    pub fn of(build: &Build, report: &EvaluateReport) -> Self {
        let subtitle = "Hand-over papers: weights, loading, circuits, battery and sun, heat and cold";
        Self(Paper {
            name: build
                .name
                .clone()
                .filter(|name| !name.trim().is_empty())
                .unwrap_or_else(|| "A trailer without a name".to_owned()),
            subtitle: subtitle.to_owned(),
            foot: FOOT,
            sections: vec![
                first_page::section(build, report),
                weights::section(build, report),
                loading_guide::section(build, report),
                circuits::section(build, report),
                energy::section(build, report),
                cooling::section(build, report),
                last_pages::section(report),
            ],
        })
    }

    /// One page of HTML that holds its style and its drawings, runs nothing and loads nothing. It prints on US Letter.
    pub fn html(&self) -> String {
        html::html(&self.0)
    }

    /// Markdown, with tables in place of drawings.
    pub fn markdown(&self) -> String {
        markdown::markdown(&self.0)
    }
}

#[cfg(test)]
mod tests;
