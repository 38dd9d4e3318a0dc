//! Rows worked out one after another: what one row has in common with the one before is kept.

use serde_json::Value;

use super::Batch;
use super::column::{Target, row_error, wrong};
use super::report::RowError;
use super::weights::Weights;
use crate::build::Build;
use crate::document::{Faults, Record, Refusal};
use crate::options::choice::Choice;
use crate::options::{conflict, findings};

/// From so many rows on that differ in masses and places alone it is worth making their sums ready.
const WORTH_IT: usize = 8;

/// A worker at the rows of a batch.
pub struct Worker<'b> {
    batch: &'b Batch<'b>,
    chosen: Option<Chosen>,
    /// The frame that was begun last.
    frame: Option<u32>,
    /// Where its build stands.
    build: Where,
    weights: Option<Weights>,
}

/// Where the build of a frame stands.
enum Where {
    /// There is none.
    Nowhere,
    /// It is that of the choice, the numbers put into it.
    Chosen,
    /// It was read by itself.
    Apart(Box<Build>),
}

/// What a choice of options comes to.
struct Chosen {
    /// The cells it is of.
    bits: Vec<u64>,
    price_usd: f64,
    broken_rules: f64,
    /// The build that it makes.
    value: Value,
    /// The same read; none where that has faults without the columns' numbers.
    build: Option<Build>,
    conflict: Option<String>,
}

impl<'b> Worker<'b> {
    /// A worker that has done nothing yet.
    pub fn new(batch: &'b Batch<'b>) -> Self {
        Self { batch, chosen: None, frame: None, build: Where::Nowhere, weights: None }
    }

    /// Begins a frame: rows that differ in masses and places alone.
    ///
    /// - `frame`  its number: where it was begun before, nothing is to be done
    /// - `row`    its first row
    /// - `rows`   how many there are
    ///
    /// # Errors
    ///
    /// What is wrong with the build that they have in common.
    pub fn begin(&mut self, frame: u32, row: usize, rows: usize) -> Result<(), RowError> {
        if self.frame == Some(frame) && !matches!(self.build, Where::Nowhere) {
            return Ok(());
        }
        (self.frame, self.build, self.weights) = (Some(frame), Where::Nowhere, None);
        self.choose(row);
        let Some(chosen) = &mut self.chosen else { return Ok(()) };
        if let Some(message) = &chosen.conflict {
            return Err(RowError { row: row as u32, subject: String::new(), message: message.clone() });
        }
        let mut faults = Faults::default();
        let put = chosen.build.as_mut().and_then(|build| self.batch.put(build, row).then_some(build));
        let build = match put {
            Some(build) => {
                build.check(&mut faults);
                Where::Chosen
            }
            None => {
                let read = Build::from_value(&self.batch.value_of(&chosen.value, row), self.batch.weather());
                let (build, found) = read.map_err(|refusal| refused(row, &refusal, &chosen.value))?;
                faults = found;
                Where::Apart(Box::new(build))
            }
        };
        if let Some(error) = row_error(row, wrong(&faults), &chosen.value) {
            return Err(error);
        }
        self.build = build;
        if rows >= WORTH_IT && !self.batch.by_row.is_empty() {
            self.weights = self.build().and_then(|build| self.batch.weights(build));
        }
        Ok(())
    }

    /// The build of the frame.
    fn build(&self) -> Option<&Build> {
        match &self.build {
            Where::Nowhere => None,
            Where::Chosen => self.chosen.as_ref()?.build.as_ref(),
            Where::Apart(build) => Some(build),
        }
    }

    /// Finds the choice of options of a row, and the build that it makes.
    fn choose(&mut self, row: usize) {
        let columns =
            self.batch.columns.iter().filter(|column| !matches!(column.target, Target::Field { .. }));
        let bits: Vec<u64> = columns.clone().map(|column| column.bits(row)).collect();
        if self.chosen.as_ref().is_some_and(|chosen| chosen.bits == bits) {
            return;
        }
        let mut chosen = Chosen {
            bits,
            price_usd: 0.0,
            broken_rules: 0.0,
            value: Value::Null,
            build: None,
            conflict: None,
        };
        match &self.batch.packages {
            None => chosen.value = self.batch.base.clone(),
            Some(packages) => {
                let mut choice = Choice::none(packages);
                for column in columns {
                    if let Some(position) = column.chosen(row, packages) {
                        choice.set(position, true);
                    }
                }
                let mut faults = Faults::default();
                conflict::note(packages, &choice, &mut faults);
                chosen.conflict =
                    faults.list().first().map(|fault| format!("{} {}", fault.pointer, fault.detail));
                chosen.price_usd = choice.price_usd(packages);
                chosen.broken_rules = findings::judge(packages, &choice).len() as f64;
                chosen.value = choice.build(packages);
            }
        }
        chosen.build = self.batch.build.clone().or_else(|| {
            let read = Build::from_value(&chosen.value, self.batch.weather()).ok();
            read.filter(|(_, faults)| faults.is_empty()).map(|(build, _)| build)
        });
        self.chosen = Some(chosen);
    }

    /// Works out what all rows of the frame have in common.
    ///
    /// - `common`  each figure by its number among those that frames have
    ///
    /// # Errors
    ///
    /// Why a question is not answered.
    pub fn frame(&mut self, row: usize, common: &mut [f64]) -> Result<(), RowError> {
        let slots = &self.batch.slots;
        let mut put = |score: usize, figure: f64| common[slots[score].number()] = figure;
        if let Some(chosen) = &self.chosen {
            self.batch.prices.iter().for_each(|score| put(*score, chosen.price_usd));
            self.batch.broken_rules.iter().for_each(|score| put(*score, chosen.broken_rules));
        }
        self.ask(&self.batch.by_frame, row, &mut put)
    }

    /// Works out what a row of the frame has of its own.
    ///
    /// - `put`  takes each figure by its number among those that rows have
    ///
    /// # Errors
    ///
    /// Why a question is not answered.
    pub fn row(&mut self, row: usize, mut put: impl FnMut(usize, f64)) -> Result<(), RowError> {
        let columns = &self.batch.columns;
        if let Some(weights) = &mut self.weights {
            weights.row(|column| columns[column].number(row), put);
            return Ok(());
        }
        match (&mut self.build, &mut self.chosen) {
            (Where::Apart(build), _) => self.batch.put_masses(build, row),
            (Where::Chosen, Some(Chosen { build: Some(build), .. })) => self.batch.put_masses(build, row),
            _ => {}
        }
        let slots = &self.batch.slots;
        self.ask(&self.batch.by_row, row, |score, figure| put(slots[score].number(), figure))
    }

    fn ask(
        &self,
        tasks: &[super::score::Task],
        row: usize,
        mut put: impl FnMut(usize, f64),
    ) -> Result<(), RowError> {
        let Some(build) = self.build() else { unreachable!("asked only where the frame was begun") };
        let mut error = Ok(());
        for task in tasks {
            let here = match task.ask(build) {
                Ok(report) => task.read(&report, &mut put).map_err(|message| RowError {
                    row: row as u32,
                    subject: String::new(),
                    message,
                }),
                Err(refusal) => Err(refused(row, &refusal, self.batch.base)),
            };
            error = error.and(here);
        }
        error
    }
}

fn refused(row: usize, refusal: &Refusal, build: &Value) -> RowError {
    let told = match refusal {
        Refusal::Faults(faults) => row_error(row, wrong(faults), build),
        _ => None,
    };
    told.unwrap_or_else(|| RowError { row: row as u32, subject: String::new(), message: refusal.to_string() })
}

impl Batch<'_> {
    /// Puts the numbers of a row into a build. Could every one be put?
    fn put(&self, build: &mut Build, row: usize) -> bool {
        self.fields(false).all(|(keys, column)| put_at(build, keys, self.columns[column].number(row)))
    }

    /// Puts the masses and places of a row into a build.
    fn put_masses(&self, build: &mut Build, row: usize) {
        for (keys, column) in self.fields(true) {
            put_at(build, keys, self.columns[column].number(row));
        }
    }

    /// The keys of each field that a column gives, and the column.
    ///
    /// - `masses`  masses and places of parts and cargo alone
    fn fields(&self, masses: bool) -> impl Iterator<Item = (&[String], usize)> {
        self.columns.iter().enumerate().filter_map(move |(number, column)| match &column.target {
            Target::Field { input, is_mass } if *is_mass || !masses => Some((&input.keys[..], number)),
            _ => None,
        })
    }

    /// A build with the numbers of a row.
    fn value_of(&self, value: &Value, row: usize) -> Value {
        let mut value = value.clone();
        for column in &self.columns {
            if let Target::Field { input, .. } = &column.target {
                input.put(&mut value, column.number(row));
            }
        }
        value
    }
}

fn put_at(build: &mut Build, keys: &[String], value: f64) -> bool {
    /// No path into a build is longer.
    const MOST: usize = 8;
    let mut path = [""; MOST];
    if keys.len() > MOST {
        return false;
    }
    path.iter_mut().zip(keys).for_each(|(place, key)| *place = key);
    build.slot(&path[..keys.len()]).map(|slot| slot.put(value)).is_some()
}
