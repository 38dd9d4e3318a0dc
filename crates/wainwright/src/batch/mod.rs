//! Many builds at once: a base, a table of what varies in it, and the figures that are wanted of every row.
//!
//! Names are looked up once ([`column`], [`score`]). Rows that differ in the masses and places of parts and cargo alone form a
//! frame ([`frames`]); circuits, energy and heat are worked out once a frame, masses row by row ([`weights`]). Threads share
//! the rows ([`run`], [`worker`]). Every figure is the same to the bit as that of the build put to its question by itself.

mod cells;
mod column;
mod frames;
mod report;
mod request;
mod run;
mod score;
mod weights;
mod worker;

pub use cells::Cells;
pub use report::{BatchReport, RowError};
pub use request::{BatchBase, BatchRequest};
pub use run::Scored;

use indexmap::IndexSet;
use serde_json::{Map, Value, json};

use crate::bounds;
use crate::build::Build;
use crate::document::schema::Definitions;
use crate::document::{FaultCode, Faults, Place, Record, Refusal, read};
use crate::named_files::NamedFiles;
use crate::operation::Operation;
use crate::options::catalogue::Group;
use crate::options::request::{Packages, packages};
use crate::report::Engine;
use crate::sky::weather_file::WeatherLibrary;
use column::{Column, Target};
use score::{Score, Task};
use weights::Weights;

/// A table about to be scored: its names are looked up.
#[derive(Debug)]
struct Batch<'a> {
    base: &'a Value,
    /// The base, read; none where columns choose options, or give what it lacks.
    build: Option<Build>,
    packages: Option<Packages<'a>>,
    named_files: &'a NamedFiles,
    columns: Vec<Column<'a>>,
    rows: usize,
    /// What is wanted of questions that every row of a frame answers alike, and of those that each answers for itself.
    by_frame: Vec<Task>,
    by_row: Vec<Task>,
    prices: Vec<usize>,
    broken_rules: Vec<usize>,
    /// Where the figures of each score are gathered.
    slots: Vec<Slot>,
    /// How many scores each row has for itself, and how many all rows of a frame have in common.
    own_count: usize,
    common_count: usize,
}

/// Where the figures of a score are gathered: those of rows and those of frames are numbered apart.
#[derive(Debug, Clone, Copy)]
enum Slot {
    /// Each row has its own.
    Own(usize),
    /// All rows of a frame have it in common.
    Common(usize),
}

impl Slot {
    /// Its number among its like.
    fn number(self) -> usize {
        match self {
            Self::Own(number) | Self::Common(number) => number,
        }
    }
}

/// A build that columns vary.
#[derive(Debug, Clone, Copy)]
struct Base<'a> {
    /// Its JSON.
    value: &'a Value,
    /// The build, where somebody read and checked it before.
    build: Option<&'a Build>,
}

impl<'a> Base<'a> {
    /// One that nobody has read.
    fn unread(value: &'a Value) -> Self {
        Self { value, build: None }
    }
}

/// What a batch is made of, before its names are looked up.
#[derive(Debug)]
pub struct Table<'a> {
    /// The columns by name.
    pub columns: Vec<(&'a str, Cells<'a>)>,
    /// How many rows they have.
    pub rows: usize,
    /// The figures that are wanted.
    pub scores: &'a [String],
}

impl<'a> Table<'a> {
    /// The names of its columns.
    fn names(&self) -> Vec<&'a str> {
        self.columns.iter().map(|(name, _)| *name).collect()
    }
}

impl<'a> Batch<'a> {
    /// Looks up every name of a table; none where something is wrong, which is noted.
    ///
    /// - `base`  the build that columns vary
    /// - `groups`, `catalogue`  options that columns choose of, as a request for options gives them
    /// - `named_files`  weather files and catalogues that may be named
    fn of(
        base: Option<Base<'a>>,
        groups: Option<&'a crate::document::Keyed<Group>>,
        catalogue: Option<&str>,
        table: Table<'a>,
        named_files: &'a NamedFiles,
        faults: &mut Faults,
    ) -> Option<Self> {
        let given = base.map(|base| base.value);
        let packages = match (groups, catalogue) {
            (None, None) => None,
            _ => Some(packages(given, groups, catalogue, named_files, faults)?),
        };
        let read = base.filter(|_| packages.is_none()).and_then(|base| base.build);
        let Some(base) = packages.as_ref().map(|packages| packages.base).or(given) else {
            faults.missing(&Place::ROOT.key("base"), "a build");
            return None;
        };
        let columns = columns(table.columns, base, packages.as_ref(), faults);
        let scores = scores(table.scores, packages.as_ref(), faults);
        let reads_rows =
            columns.iter().any(|column| matches!(column.target, Target::Field { is_mass: true, .. }));
        let (by_row, by_frame) =
            Task::all(&scores).into_iter().partition(|task| reads_rows && task.reads_masses());
        let mut batch = Self {
            base,
            build: read.cloned(),
            packages,
            named_files,
            columns,
            rows: table.rows,
            by_frame,
            by_row,
            prices: Vec::new(),
            broken_rules: Vec::new(),
            slots: Vec::with_capacity(scores.len()),
            own_count: 0,
            common_count: 0,
        };
        for (index, score) in scores.iter().enumerate() {
            match score {
                Some(Score::Price) => batch.prices.push(index),
                Some(Score::BrokenRules) => batch.broken_rules.push(index),
                Some(Score::Figure(_)) | None => {}
            }
            let is_own = batch.by_row.iter().any(|task| task.figures.iter().any(|(of, _)| *of == index));
            let (slot, count) = match is_own {
                true => (Slot::Own(batch.own_count), &mut batch.own_count),
                false => (Slot::Common(batch.common_count), &mut batch.common_count),
            };
            batch.slots.push(slot);
            *count += 1;
        }
        if !faults.spoil("/base") {
            batch.build = batch.check_figures(faults);
        }
        faults.is_empty().then_some(batch)
    }

    /// What is wanted of each row, where it is masses and loads alone, made ready for rows of a build.
    fn weights(&self, build: &Build) -> Option<Weights> {
        let tasks: Vec<&Task> = self.by_row.iter().collect();
        let is_answered = tasks.iter().all(|task| task.is_answered_by(build));
        let number = |score: usize| self.slots[score].number();
        if is_answered { Weights::of(build, &tasks, &self.columns, number) } else { None }
    }

    fn weather(&self) -> &WeatherLibrary {
        &self.named_files.weather
    }

    /// Notes paths of figures that lead nowhere in the base's answers, and what is wrong with the base: where columns choose
    /// options, or give what it lacks, the rows tell.
    ///
    /// Returns the base, where it is a build as it stands.
    fn check_figures(&mut self, faults: &mut Faults) -> Option<Build> {
        // A column that was refused may have been one that chooses.
        let chooses = self.packages.is_some()
            && (!faults.is_empty()
                || !self.columns.iter().all(|column| matches!(column.target, Target::Field { .. })));
        if chooses {
            return None;
        }
        let (build, of_base) = match self.build.take() {
            Some(read) => (read, Faults::default()),
            None => Build::from_value(self.base, self.weather()).ok()?,
        };
        if !of_base.is_empty() {
            let given = |pointer: &str| {
                let gives = |column: &Column| matches!(&column.target, Target::Field { input, .. } if input.pointer() == pointer);
                self.columns.iter().any(gives)
            };
            if of_base.list().iter().any(|fault| !given(&fault.pointer)) {
                faults.add_inner("/base", of_base);
            }
            return None;
        }
        let root = Place::ROOT;
        let list = root.key("scores");
        // What is worked out row by row without the report is in the report.
        let by_row = if self.weights(&build).is_some() { &[][..] } else { &self.by_row };
        for task in self.by_frame.iter().chain(by_row) {
            match task.ask(&build) {
                Ok(report) => {
                    for (index, figure) in &task.figures {
                        if figure.is_there(&report).is_err() {
                            figure.check(&report, &list.index(*index), faults);
                        }
                    }
                }
                Err(Refusal::Faults(missing)) => faults.add_inner("/base", missing),
                Err(_) => {}
            }
        }
        Some(build)
    }
}

/// Is a table no larger than is scored over HTTP?
///
/// # Errors
///
/// It has too many rows or scores.
pub fn within_limits(rows: usize, scores: usize) -> Result<(), Refusal> {
    let (root, mut faults) = (Place::ROOT, Faults::default());
    for (name, count, most, what) in
        [("columns", rows, bounds::MOST_ROWS, "rows"), ("scores", scores, bounds::MOST_SCORES, "items")]
    {
        if count > most {
            let detail = format!("must have {most} {what} or fewer; it has {count}");
            if let Some(fault) = faults.add(&root.key(name), FaultCode::TooMany, detail) {
                fault.maximum = Some(most as f64);
            }
        }
    }
    faults.into_result()
}

/// Scores a table whose columns are given apart from its base.
///
/// - `json`     a [`BatchBase`]
/// - `threads`  how many work at it, 1 or more
/// - `watch`    told now and then how many of how many steps are done; false ends the work
///
/// Returns none where the work was ended.
///
/// # Errors
///
/// All faults together, each with its JSON Pointer: into `base` and `groups`, to a column under `/columns`, to a score under
/// `/scores`, in this order.
pub fn score(
    json: &[u8],
    table: Table,
    named_files: &NamedFiles,
    threads: usize,
    watch: impl FnMut(usize, usize) -> bool,
) -> Result<Option<Scored>, Refusal> {
    let (given, mut faults) = read::<BatchBase>(json)?;
    let (groups, catalogue) = (given.groups.as_ref(), given.catalogue.as_deref());
    let base = given.base.as_ref().map(Base::unread);
    let (names, scores) = (table.names(), table.scores);
    match Batch::of(base, groups, catalogue, table, named_files, &mut faults) {
        Some(batch) => Ok(batch.run(threads, watch)),
        None => Err(Refusal::Faults(in_order(faults, json, &names, scores))),
    }
}

/// Scores a table whose base was read before, as [`score`].
///
/// - `value`  the base as JSON
/// - `build`  the same read
///
/// # Errors
///
/// All faults together, as those of [`score`].
pub fn score_build(
    (value, build): (&Value, &Build),
    table: Table,
    named_files: &NamedFiles,
    threads: usize,
    watch: impl FnMut(usize, usize) -> bool,
) -> Result<Option<Scored>, Refusal> {
    let mut faults = Faults::default();
    let base = Base { value, build: Some(build) };
    let (names, scores) = (table.names(), table.scores);
    match Batch::of(Some(base), None, None, table, named_files, &mut faults) {
        Some(batch) => Ok(batch.run(threads, watch)),
        None => {
            let request = json!({"base": value}).to_string();
            Err(Refusal::Faults(in_order(faults, request.as_bytes(), &names, scores)))
        }
    }
}

/// Faults as if base, columns and scores stood in one document, in this order.
///
/// - `json`  the request without columns and scores
fn in_order(faults: Faults, json: &[u8], names: &[&str], scores: &[String]) -> Faults {
    let mut given: Map<String, Value> = serde_json::from_slice(json).unwrap_or_default();
    let mut whole = Map::new();
    // That of a catalogue comes first as well.
    whole.insert("base".to_owned(), given.shift_remove("base").unwrap_or_else(|| json!({})));
    whole.extend(given);
    let columns: Map<String, Value> = names.iter().map(|name| ((*name).to_owned(), Value::Null)).collect();
    whole.insert("columns".to_owned(), columns.into());
    whole.insert("scores".to_owned(), vec![Value::Null; scores.len()].into());
    faults.in_document_order(Value::Object(whole).to_string().as_bytes())
}

fn columns<'a>(
    given: Vec<(&'a str, Cells<'a>)>,
    base: &Value,
    packages: Option<&Packages>,
    faults: &mut Faults,
) -> Vec<Column<'a>> {
    let root = Place::ROOT;
    let list = root.key("columns");
    let mut names = IndexSet::new();
    let mut columns: Vec<Column> = Vec::new();
    for (name, cells) in given {
        let at = list.key(name);
        if !names.insert(name) {
            faults.duplicate_key(&at);
            continue;
        }
        if faults.spoil("/base") || faults.spoil("/groups") {
            continue;
        }
        let Some(target) = Target::find(name, &cells, base, packages, &at, faults) else { continue };
        let group = |target: &Target| match target {
            Target::Group(group) | Target::Option((group, _)) => Some(*group),
            Target::Field { .. } => None,
        };
        let is_twice = columns.iter().any(|other| {
            let both_of_group = group(&other.target).is_some() && group(&other.target) == group(&target);
            both_of_group && (matches!(other.target, Target::Group(_)) || matches!(target, Target::Group(_)))
        });
        if is_twice {
            let detail = "chooses of a group that another column chooses of; keep one of the two".to_owned();
            faults.contradiction(&at, detail);
            continue;
        }
        columns.push(Column { target, cells });
    }
    columns
}

/// Each score; none of a path that names none.
fn scores(paths: &[String], packages: Option<&Packages>, faults: &mut Faults) -> Vec<Option<Score>> {
    let root = Place::ROOT;
    let list = root.key("scores");
    let mut known = IndexSet::new();
    let read = paths.iter().enumerate().map(|(index, path)| {
        let at = list.index(index);
        if !known.insert(path) {
            faults.add(&at, FaultCode::DuplicateKey, "is given more than once; keep one".to_owned());
        }
        Score::read(path, packages, &at, faults)
    });
    read.collect()
}

/// The operation: scores of every row of a table.
#[derive(Debug, Clone, Copy)]
pub struct ScoreTable;

impl Operation for ScoreTable {
    const NAME: &'static str = "batch";
    const PATH: &'static str = "batch";
    const SUMMARY: &'static str = "Figures of many builds at once, by a table of what varies";
    const DESCRIPTION: &'static str = "Reads a `base`, `columns` of what varies in it row by row, and the `scores` that are \
        wanted: figures of any answer by their paths. Columns hold numbers for fields of the build or, with `groups` or a \
        `catalogue`, choices of options. Answers with a figure a row for each score, the same to the bit as the build of that \
        row put to the question by itself. A row that cannot be worked out has no figures, and an entry under `errors`. A body of \
        type `application/vnd.apache.arrow.stream` is a table of Arrow: its columns are the columns, and the metadata \
        `wainwright` of its schema hold the rest of the request as JSON. It is answered with a table of the same type: a column \
        for each score, and last `errors`.";
    const MAY_TAKE_LONG: bool = true;
    type Answer = BatchReport;

    fn request_schema(definitions: &mut Definitions) -> Value {
        BatchRequest::schema(definitions)
    }

    fn example() -> Value {
        json!({
            "base": {
                "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}},
                "parts": {"galley": {"mass_lb": 165}, "bench": {"mass_lb": 86}},
                "cargo": {"atv": {"mass_lb": 690}},
                "states": {"outbound": {"moving": true, "aboard": ["atv"]}},
            },
            "columns": {"parts.galley.mass_lb": [165, -12, 244]},
            "scores": ["payload.states.outbound.payload_left_lb"],
        })
    }

    fn answer(json: &[u8], named_files: &NamedFiles) -> Result<BatchReport, Refusal> {
        let (request, mut faults) = read::<BatchRequest>(json)?;
        let (columns, rows) = request::columns(&request.columns, &mut faults);
        let table = Table { columns, rows, scores: &request.scores };
        let (groups, catalogue) = (request.groups.as_ref(), request.catalogue.as_deref());
        let base = request.base.as_ref().map(Base::unread);
        let Some(batch) = Batch::of(base, groups, catalogue, table, named_files, &mut faults) else {
            return Err(Refusal::Faults(faults.in_document_order(json)));
        };
        // One thread: a service has other callers.
        let Some(scored) = batch.run(1, |_, _| true) else { unreachable!("nobody ends it") };
        Ok(scored.report(batch.rows, &request.scores))
    }
}

impl Scored {
    /// The answer over HTTP.
    fn report(self, rows: usize, scores: &[String]) -> BatchReport {
        let rows = rows as u32;
        let columns = scores.iter().zip(self.scores).map(|(path, figures)| {
            let figures = figures.into_iter().map(|figure| figure.is_finite().then_some(figure));
            (path.clone(), figures.collect())
        });
        BatchReport { rows, scores: columns.collect(), errors: self.errors, engine: Engine::THIS }
    }
}
