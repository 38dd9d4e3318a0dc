//! The rows shared out among threads.

use std::num::NonZeroUsize;
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, mpsc};
use std::time::{Duration, Instant};

use indexmap::IndexSet;

use super::frames::Frames;
use super::report::RowError;
use super::worker::Worker;
use super::{Batch, Slot};

/// So often the watcher is asked whether to go on.
const WATCHED: Duration = Duration::from_millis(100);
/// Visits that are taken at once, at most: the figures of so many stay in the cache until all is done with them.
const MOST_AT_ONCE: usize = 1024;
/// A share that took less than the first is followed by a greater one, a share that took more than the second by a smaller:
/// none waits long for another at the end, and little is done in vain where the work is ended.
const QUICK: (Duration, Duration) = (Duration::from_millis(5), Duration::from_millis(20));
/// So often a thread hands over what it has done: each time another is woken, which has no core of its own.
const TOLD: Duration = Duration::from_millis(50);
/// At most so many threads for each core.
const MOST_PER_CORE: usize = 4;

/// What came of all rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Scored {
    /// Each score, a figure a row; NaN where there is none.
    pub scores: Vec<Vec<f64>>,
    /// Has a score a figure in every row?
    pub whole: Vec<bool>,
    /// The rows that could not be worked out, in their order.
    pub errors: Vec<RowError>,
}

/// Visits that nobody has taken on, and where what rows have of their own goes: score by score in the order of the visits.
struct Untaken<'f> {
    visits: Range<usize>,
    own: Vec<&'f mut [f64]>,
}

impl<'f> Untaken<'f> {
    /// Takes the next so many visits; none where all are taken.
    fn take(&mut self, at_once: usize) -> Option<Self> {
        if self.visits.is_empty() {
            return None;
        }
        let count = at_once.min(self.visits.len());
        let visits = self.visits.start..self.visits.start + count;
        self.visits.start += count;
        let own = self.own.iter_mut().filter_map(|figures| figures.split_off_mut(..count));
        Some(Self { visits, own: own.collect() })
    }
}

/// What came of some of the visits, beside what rows have of their own.
struct Share {
    /// How many there are.
    count: usize,
    /// Has every row a figure of its own of each score?
    whole: Vec<bool>,
    /// What frames have in common: each with its figures, score by score.
    frames: Vec<(u32, Vec<f64>)>,
    /// Frames that could not be worked out, or not whole.
    frame_errors: Vec<(u32, RowError)>,
    /// Rows that could not.
    errors: Vec<RowError>,
}

impl Share {
    /// Nothing yet.
    fn none(batch: &Batch) -> Self {
        let whole = vec![true; batch.own_count];
        Self { count: 0, whole, frames: Vec::new(), frame_errors: Vec::new(), errors: Vec::new() }
    }
}

impl Batch<'_> {
    /// Works out every row.
    ///
    /// - `threads`  how many work at it, 1 or more; what comes of it is the same
    /// - `watch`    told now and then how many of how many steps are done; false ends the work
    ///
    /// Returns none where the work was ended.
    pub fn run(&self, threads: usize, mut watch: impl FnMut(usize, usize) -> bool) -> Option<Scored> {
        let each_row = !self.by_row.is_empty();
        let frames = Frames::of(&self.columns, self.rows, self.base, self.packages.as_ref(), each_row);
        let cores = std::thread::available_parallelism().map_or(1, NonZeroUsize::get);
        let threads = threads.min(MOST_PER_CORE * cores).clamp(1, frames.visits().max(1));
        // Fresh memory that is all zero costs nothing before it is written to: so each thread pays for its own. What is not
        // written to is of rows with an error, which have no figures in the end.
        let mut own: Vec<Vec<f64>> = (0..self.own_count).map(|_| vec![0.0; frames.visits()]).collect();
        let own_columns = own.iter_mut().map(Vec::as_mut_slice).collect();
        let untaken = Mutex::new(Untaken { visits: 0..frames.visits(), own: own_columns });
        let stop = AtomicBool::new(false);
        let (sender, receiver) = mpsc::sync_channel(2 * threads);
        let mut gathered = Gathered::new(self, &frames);
        let finished = std::thread::scope(|scope| {
            for _ in 0..threads {
                let (sender, frames, untaken, stop) = (sender.clone(), &frames, &untaken, &stop);
                scope.spawn(move || {
                    let (mut worker, mut at_once) = (Worker::new(self), 1);
                    let (mut share, mut told) = (Share::none(self), Instant::now());
                    while !stop.load(Ordering::Relaxed) {
                        let begun = Instant::now();
                        let taken = untaken.lock().ok().and_then(|mut untaken| untaken.take(at_once));
                        let Some(taken) = taken else { break };
                        self.work(&mut worker, frames, taken, stop, &mut share);
                        match begun.elapsed() {
                            took if took < QUICK.0 => at_once = (2 * at_once).min(MOST_AT_ONCE),
                            took if took > QUICK.1 => at_once = (at_once / 2).max(1),
                            _ => {}
                        }
                        if told.elapsed() > TOLD {
                            told = Instant::now();
                            // Nobody takes it where the work was ended.
                            if sender.send(std::mem::replace(&mut share, Share::none(self))).is_err() {
                                break;
                            }
                        }
                    }
                    _ = sender.send(share);
                });
            }
            drop(sender);
            let (mut done, mut watched) = (0, Instant::now());
            loop {
                match receiver.recv_timeout(WATCHED) {
                    Ok(share) => {
                        done += share.count;
                        gathered.take(share);
                    }
                    Err(mpsc::RecvTimeoutError::Timeout) => {}
                    Err(mpsc::RecvTimeoutError::Disconnected) => return true,
                }
                if watched.elapsed() < WATCHED {
                    continue;
                }
                watched = Instant::now();
                if !watch(done, frames.visits()) {
                    stop.store(true, Ordering::Relaxed);
                    // Whoever waits to hand something over is let go.
                    drop(receiver);
                    return false;
                }
            }
        });
        finished.then(|| gathered.scored(own))
    }

    /// Works out visits that were taken: no more of them than until the work is ended.
    fn work(
        &self,
        worker: &mut Worker,
        frames: &Frames,
        taken: Untaken,
        stop: &AtomicBool,
        share: &mut Share,
    ) {
        let Untaken { visits, mut own } = taken;
        share.count += visits.len();
        let mut visit = visits.start;
        while visit < visits.end && !stop.load(Ordering::Relaxed) {
            let (frame, end) = frames.frame_at(visit);
            let end = end.min(visits.end);
            let row = frames.row(visit);
            let begun = worker.begin(frame, row, frames.len_of(frame));
            if frames.is_first(visit) {
                let mut common = vec![f64::NAN; self.common_count];
                let answered = match &begun {
                    Ok(()) => worker.frame(row, &mut common),
                    Err(error) => Err(error.clone()),
                };
                share.frame_errors.extend(answered.err().map(|error| (frame, error)));
                share.frames.push((frame, common));
            }
            if begun.is_ok() && !self.by_row.is_empty() {
                for at in visit..end {
                    if stop.load(Ordering::Relaxed) {
                        break;
                    }
                    let place = at - visits.start;
                    let put = |number: usize, figure: f64| own[number][place] = figure;
                    share.errors.extend(worker.row(frames.row(at), put).err());
                }
            }
            visit = end;
        }
        for (whole, figures) in share.whole.iter_mut().zip(&own) {
            *whole &= figures.iter().all(|figure| figure.is_finite());
        }
    }
}

/// What has come in so far.
struct Gathered<'g> {
    batch: &'g Batch<'g>,
    frames: &'g Frames,
    common: Vec<Vec<f64>>,
    /// Has every row that came in a figure of its own of each score?
    whole: Vec<bool>,
    frame_errors: Vec<(u32, RowError)>,
    errors: Vec<RowError>,
}

impl<'g> Gathered<'g> {
    fn new(batch: &'g Batch<'g>, frames: &'g Frames) -> Self {
        let common = vec![vec![f64::NAN; frames.count()]; batch.common_count];
        let whole = vec![true; batch.own_count];
        Self { batch, frames, common, whole, frame_errors: Vec::new(), errors: Vec::new() }
    }

    fn take(&mut self, share: Share) {
        self.whole.iter_mut().zip(share.whole).for_each(|(whole, here)| *whole &= here);
        for (frame, figures) in share.frames {
            self.common.iter_mut().zip(figures).for_each(|(column, figure)| column[frame as usize] = figure);
        }
        self.frame_errors.extend(share.frame_errors);
        self.errors.extend(share.errors);
    }

    /// All of it.
    ///
    /// - `own`  what rows have of their own, score by score in the order of the visits
    fn scored(self, own: Vec<Vec<f64>>) -> Scored {
        let Self { batch, frames, common, whole, frame_errors, mut errors } = self;
        // Both were numbered in the order of the scores.
        let mut own = own.into_iter();
        let scores = batch.slots.iter().map(|slot| match slot {
            Slot::Own(_) => frames.by_row(own.next().unwrap_or_default(), batch.rows),
            Slot::Common(number) => frames.spread(&common[*number], batch.rows),
        });
        let mut scores: Vec<Vec<f64>> = scores.collect();
        let is_finite = |figure: &f64| figure.is_finite();
        let whole = batch.slots.iter().map(|slot| match slot {
            Slot::Own(number) => whole[*number],
            Slot::Common(number) => common[*number].iter().all(is_finite),
        });
        let mut whole: Vec<bool> = whole.collect();
        let with_error: IndexSet<u32> = errors.iter().map(|error| error.row).collect();
        for (frame, error) in frame_errors {
            let rows = frames.rows_of(frame).filter(|row| !with_error.contains(row));
            errors.extend(rows.map(|row| RowError { row, ..error.clone() }));
        }
        errors.extend(frames.bad().iter().cloned());
        errors.sort_by_key(|error| error.row);
        // What is wrong with a row concerns all its figures.
        if !errors.is_empty() {
            whole.fill(false);
        }
        for error in &errors {
            scores.iter_mut().for_each(|figures| figures[error.row as usize] = f64::NAN);
        }
        Scored { scores, whole, errors }
    }
}
