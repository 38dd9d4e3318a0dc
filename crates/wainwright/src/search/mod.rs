//! Search: every choice of options that breaks nothing, the best of them, and those that no other beats.

pub mod figures;
mod keys;
mod masses;
pub mod pareto;
mod report;
mod request;
mod space;
mod walk;

pub use report::{RankedChoice, SearchReport};
pub use request::{SearchRequest, Weights};

use serde_json::{Value, json};

use crate::bounds::MOST_PARETO;
use crate::build::Build;
use crate::document::schema::Definitions;
use crate::document::{self, Faults, Place, Record, Refusal};
use crate::evaluate::{Evaluate, Margins};
use crate::named_files::NamedFiles;
use crate::operation::Operation;
use crate::options::choice::Choice;
use crate::options::demo;
use crate::options::reads::Half;
use crate::options::request::{self as packages, Packages};
use crate::question::Question;
use crate::report::Engine;
use figures::{Autonomy, Figures};
use space::Space;
use walk::{Walk, Walked};

/// The operation: which of all choices are best?
#[derive(Debug, Clone, Copy)]
pub struct Search;

impl Operation for Search {
    const NAME: &'static str = "search";
    const PATH: &'static str = "search";
    const SUMMARY: &'static str =
        "All choices of options that break nothing: the best by weights, and those that no other beats";
    const DESCRIPTION: &'static str = "Reads a `base` and `groups` of options, or a `catalogue` by name, as `/v1/options` does; \
        which groups `vary`, what is `chosen` of the others, and `weights`. Looks at every choice there is, exactly: in a \
        group of which one may be chosen each option and none, in a group of which any may be each set of them. Answers with \
        the best of those that break nothing, with the choices that no other beats in price, payload left, tongue margin, \
        autonomy and cooling margin at once, and with how many there are. A battery that never runs out without sun is better \
        than any hours, and counts 336 h in the score, as does one that lasts longer. A figure that is not there is worse than \
        any, and counts 0 in the score; a box without air conditioner counts a cooling margin of -1. What would take too much \
        work is refused before it is begun: see `choices_count` and `evaluated_count` of `/v1/limits`.";
    const MAY_TAKE_LONG: bool = true;
    type Answer = SearchReport;

    fn request_schema(definitions: &mut Definitions) -> Value {
        SearchRequest::schema(definitions)
    }

    fn example() -> Value {
        let (base, groups) = demo::short();
        json!({
            "base": base,
            "groups": groups,
            "chosen": ["awning"],
            "vary": ["running_gear", "water", "battery"],
            "weights": {"price_usd": 1, "payload_left_lb": 2},
            "most": 3,
        })
    }

    fn answer(json: &[u8], named_files: &NamedFiles) -> Result<SearchReport, Refusal> {
        let (request, mut faults) = document::read::<SearchRequest>(json)?;
        let groups = request.groups.as_ref();
        let packages = packages::packages(
            request.base.as_ref(),
            groups,
            request.catalogue.as_deref(),
            named_files,
            &mut faults,
        );
        let refused = |faults: Faults| Err(Refusal::Faults(faults.in_document_order(json)));
        let Some(packages) = packages else { return refused(faults) };
        let fixed = packages::chosen(request.chosen.as_deref().unwrap_or_default(), &packages, &mut faults);
        crate::options::conflict::note(&packages, &fixed, &mut faults);
        let vary = vary(&request, &packages, &fixed, &mut faults);
        if !faults.is_empty() {
            return refused(faults);
        }
        let space = Space::of(&packages, &fixed, &vary);
        let walk = Walk::of(&packages, &space)?;
        let walked = walk.walk()?;
        if walked.workable == 0 {
            // Where no choice makes a build that can be worked with, what is wrong with the base is told.
            let (_, of_build) = Build::from_value(&fixed.build(&packages), &named_files.weather)?;
            faults.append(
                of_build.told_at(|pointer| crate::options::origin::origin(&packages, &fixed, pointer)),
            );
            if !faults.is_empty() {
                return refused(faults);
            }
        }
        let cheapest = Weights::cheapest();
        let weights = request.weights.as_ref().unwrap_or(&cheapest);
        let most = request.most.unwrap_or(request::LISTED) as usize;
        Ranking { packages: &packages, space: &space, walk: &walk, walked: &walked, weights }.report(most)
    }
}

/// Which groups vary, and whatever is wrong with those that are named.
fn vary(request: &SearchRequest, packages: &Packages, fixed: &Choice, faults: &mut Faults) -> Vec<bool> {
    let has_fixed = |group: usize| fixed.chosen().any(|(of, _)| of == group);
    let Some(named) = &request.vary else {
        return (0..packages.groups.len()).map(|group| !has_fixed(group)).collect();
    };
    let mut vary = vec![false; packages.groups.len()];
    let list = Place::ROOT.key("vary");
    for (i, id) in named.iter().enumerate() {
        let at = list.index(i);
        match packages.groups.get_index_of(id) {
            None if faults.spoil(&at.pointer()) || faults.spoil("/groups") => {}
            None => faults.unknown_name(
                &at,
                id,
                "the groups of the catalogue",
                packages.groups.keys().map(String::as_str),
            ),
            Some(group) if has_fixed(group) => {
                let detail = format!("names {id}, of which an option is chosen; let it vary or choose of it");
                faults.contradiction(&at, detail);
            }
            Some(group) => vary[group] = true,
        }
    }
    vary
}

/// The choices that break nothing, about to be ranked.
struct Ranking<'a> {
    packages: &'a Packages<'a>,
    space: &'a Space,
    walk: &'a Walk<'a>,
    walked: &'a Walked,
    weights: &'a Weights,
}

impl Ranking<'_> {
    fn report(&self, most: usize) -> Result<SearchReport, Refusal> {
        let all: Vec<u32> = (0..self.walked.figures.len() as u32).collect();
        let best = self.best(all, most);
        let last = best.last().map(|index| self.score(*index));
        let tied =
            self.walked.figures.iter().filter(|figures| Some(figures.score(self.weights)) == last).count();
        let listed = best.iter().filter(|index| Some(self.score(**index)) == last).count();
        let front = pareto::front(&self.walked.figures);
        let pareto_left_out = front.len().saturating_sub(MOST_PARETO) as u64;
        let pareto = self.best(front, MOST_PARETO);
        Ok(SearchReport {
            choice_count: self.space.size(),
            workable_count: self.walked.workable,
            unbroken_count: self.walked.choices.len() as u64,
            best: self.ranked(&best)?,
            tied_left_out: (tied - listed) as u64,
            pareto: self.ranked(&pareto)?,
            pareto_left_out,
            engine: Engine::THIS,
        })
    }

    fn figures(&self, index: u32) -> &Figures {
        &self.walked.figures[index as usize]
    }

    fn score(&self, index: u32) -> f64 {
        self.figures(index).score(self.weights)
    }

    /// The best of some choices, best first, at most so many.
    fn best(&self, choices: Vec<u32>, most: usize) -> Vec<u32> {
        let mut scored: Vec<(f64, u32)> =
            choices.into_iter().map(|index| (self.score(index), index)).collect();
        let order = |a: &(f64, u32), b: &(f64, u32)| {
            let by_price = || self.figures(a.1).price.cmp(&self.figures(b.1).price);
            b.0.total_cmp(&a.0).then_with(by_price).then_with(|| a.1.cmp(&b.1))
        };
        if most < scored.len() && most > 0 {
            scored.select_nth_unstable_by(most - 1, order);
        }
        scored.truncate(most);
        scored.sort_unstable_by(order);
        scored.into_iter().map(|(_, index)| index).collect()
    }

    /// Choices as they are listed, with their margins worked out by the questions themselves.
    fn ranked(&self, choices: &[u32]) -> Result<Vec<RankedChoice>, Refusal> {
        let mut chosen = Vec::new();
        let ranked = choices.iter().map(|index| {
            self.space.decode(self.walked.choices[*index as usize], &mut chosen);
            let choice = self.space.choice(&chosen);
            let (build, _) =
                Build::from_value(&choice.build(self.packages), &self.packages.named_files.weather)?;
            let masses = Evaluate::answer(&Half::Masses.alone(&build)).margins;
            let (autonomy, cooling_margin_fraction) = self.walk.powers(self.walked, &chosen);
            Ok(RankedChoice {
                chosen: choice.chosen().map(|position| self.packages.id(position).to_owned()).collect(),
                price_usd: choice.price_usd(self.packages),
                score: self.score(*index),
                margins: Margins {
                    autonomy_h: match autonomy {
                        Autonomy::Hours(hours) => Some(hours),
                        Autonomy::Unknown | Autonomy::Never => None,
                    },
                    cooling_margin_fraction,
                    ..masses
                },
                never_empty: autonomy == Autonomy::Never,
            })
        });
        ranked.collect()
    }
}
