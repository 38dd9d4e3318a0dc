//! The rows shared out among threads.

use std::num::NonZeroUsize;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc;
use std::time::{Duration, Instant};

use indexmap::IndexSet;

use super::frames::Frames;
use super::report::RowError;
use super::worker::Worker;
use super::{Batch, Slot};

/// So often the watcher is asked whether to go on.
const WATCHED: Duration = Duration::from_millis(100);
/// Visits that are taken at once, at most.
const MOST_AT_ONCE: usize = 4096;
/// A share that took less than the first is followed by a greater one, a share that took more than the second by a smaller:
/// none waits long for another at the end, and little is done in vain where the work is ended.
const QUICK: (Duration, Duration) = (Duration::from_millis(5), Duration::from_millis(20));
/// At most so many threads for each core.
const MOST_PER_CORE: usize = 4;

/// What came of all rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Scored {
    /// Each score, a figure a row; NaN where there is none.
    pub scores: Vec<Vec<f64>>,
    /// The rows that could not be worked out, in their order.
    pub errors: Vec<RowError>,
}

/// What came of a share of the visits.
struct Share {
    /// The first visit.
    from: usize,
    /// How many there are.
    count: usize,
    /// What rows have of their own: score by score, a figure a visit.
    own: Vec<f64>,
    /// What frames have in common: each with its figures, score by score.
    frames: Vec<(u32, Vec<f64>)>,
    /// Frames that could not be worked out, or not whole.
    frame_errors: Vec<(u32, RowError)>,
    /// Rows that could not.
    errors: Vec<RowError>,
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
        let (next, stop) = (AtomicUsize::new(0), AtomicBool::new(false));
        let (sender, receiver) = mpsc::sync_channel(2 * threads);
        let mut gathered = Gathered::new(self, &frames);
        let finished = std::thread::scope(|scope| {
            for _ in 0..threads {
                let (sender, frames, next, stop) = (sender.clone(), &frames, &next, &stop);
                scope.spawn(move || {
                    let (mut worker, mut at_once) = (Worker::new(self), 1);
                    while !stop.load(Ordering::Relaxed) {
                        let begun = Instant::now();
                        let from = next.fetch_add(at_once, Ordering::Relaxed);
                        if from >= frames.visits() {
                            break;
                        }
                        let to = (from + at_once).min(frames.visits());
                        let share = self.share(&mut worker, frames, (from, to), stop);
                        match begun.elapsed() {
                            took if took < QUICK.0 => at_once = (2 * at_once).min(MOST_AT_ONCE),
                            took if took > QUICK.1 => at_once = (at_once / 2).max(1),
                            _ => {}
                        }
                        // Nobody takes it where the work was ended.
                        if sender.send(share).is_err() {
                            break;
                        }
                    }
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
        finished.then(|| gathered.scored())
    }

    /// Works out a share of the visits: no more of it than until the work is ended.
    fn share(
        &self,
        worker: &mut Worker,
        frames: &Frames,
        (from, to): (usize, usize),
        stop: &AtomicBool,
    ) -> Share {
        let count = to - from;
        let mut share = Share {
            from,
            count,
            own: vec![f64::NAN; self.own_count * count],
            frames: Vec::new(),
            frame_errors: Vec::new(),
            errors: Vec::new(),
        };
        let mut visit = from;
        while visit < to && !stop.load(Ordering::Relaxed) {
            let (frame, end) = frames.frame_at(visit);
            let end = end.min(to);
            let row = frames.row(visit);
            let is_first = frames.is_first(visit);
            let begun = worker.begin(frame, row, frames.len_of(frame));
            if is_first {
                let mut common = vec![f64::NAN; self.common_count];
                let put = |score: usize, figure: f64| common[self.slots[score].number()] = figure;
                let answered = match &begun {
                    Ok(()) => worker.frame(row, put),
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
                    let (row, place) = (frames.row(at), at - from);
                    let own = &mut share.own;
                    let put =
                        |score: usize, figure: f64| own[self.slots[score].number() * count + place] = figure;
                    share.errors.extend(worker.row(row, put).err());
                }
            }
            visit = end;
        }
        share
    }
}

/// What has come in so far.
struct Gathered<'g> {
    batch: &'g Batch<'g>,
    frames: &'g Frames,
    own: Vec<Vec<f64>>,
    common: Vec<Vec<f64>>,
    frame_errors: Vec<(u32, RowError)>,
    errors: Vec<RowError>,
}

impl<'g> Gathered<'g> {
    fn new(batch: &'g Batch<'g>, frames: &'g Frames) -> Self {
        Self {
            batch,
            frames,
            own: vec![vec![f64::NAN; batch.rows]; batch.own_count],
            common: vec![vec![f64::NAN; frames.count()]; batch.common_count],
            frame_errors: Vec::new(),
            errors: Vec::new(),
        }
    }

    fn take(&mut self, share: Share) {
        for (slot, column) in self.own.iter_mut().enumerate() {
            let figures = &share.own[slot * share.count..(slot + 1) * share.count];
            match self.frames.rows_in_order(share.from, share.count) {
                Some(rows) => column[rows].copy_from_slice(figures),
                None => figures
                    .iter()
                    .enumerate()
                    .for_each(|(i, figure)| column[self.frames.row(share.from + i)] = *figure),
            }
        }
        for (frame, figures) in share.frames {
            self.common.iter_mut().zip(figures).for_each(|(column, figure)| column[frame as usize] = figure);
        }
        self.frame_errors.extend(share.frame_errors);
        self.errors.extend(share.errors);
    }

    fn scored(self) -> Scored {
        let Self { batch, frames, own, common, frame_errors, mut errors } = self;
        // Both were numbered in the order of the scores.
        let mut own = own.into_iter();
        let scores = batch.slots.iter().map(|slot| match slot {
            Slot::Own(_) => own.next().unwrap_or_default(),
            Slot::Common(number) => frames.spread(&common[*number], batch.rows),
        });
        let mut scores: Vec<Vec<f64>> = scores.collect();
        let with_error: IndexSet<u32> = errors.iter().map(|error| error.row).collect();
        for (frame, error) in frame_errors {
            let rows = frames.rows_of(frame).filter(|row| !with_error.contains(row));
            errors.extend(rows.map(|row| RowError { row, ..error.clone() }));
        }
        errors.extend(frames.bad().iter().cloned());
        errors.sort_by_key(|error| error.row);
        // What is wrong with a row concerns all its figures.
        for error in &errors {
            scores.iter_mut().for_each(|figures| figures[error.row as usize] = f64::NAN);
        }
        Scored { scores, errors }
    }
}
