//! Working an answer out: at once, or beside the requests that wait, and never longer than allowed.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::time::{Duration, Instant};

use actix_web::rt::time::timeout;
use actix_web::web;

use crate::body::Body;
use crate::problem::Problem;
use crate::question::Answerer;

/// The answer to a body.
///
/// A small body is answered at once, unless the answer may take long. Others are handed to another thread, so that small
/// ones do not wait for them, and given up when the time is over.
pub async fn work_out(
    body: Body,
    answerer: &Arc<Answerer>,
    may_take_long: bool,
    longest: Duration,
) -> Result<Vec<u8>, Problem> {
    if body.is_small() && !may_take_long {
        return guarded(|| answerer(&body.content()?));
    }
    let answerer = Arc::clone(answerer);
    let begun = Instant::now();
    let work = web::block(move || {
        // It may have stood in line until nobody waits for it any more.
        if begun.elapsed() > longest { Err(too_long()) } else { guarded(|| answerer(&body.content()?)) }
    });
    match timeout(longest, work).await {
        Ok(Ok(answer)) => answer,
        Ok(Err(_)) => Err(Problem::reduced_capacity("The service is shutting down.")),
        Err(_) => Err(too_long()),
    }
}

fn too_long() -> Problem {
    Problem::reduced_capacity("The answer took longer to work out than the service allows.")
}

/// A panic ends the request, not the service. The panic hook has logged what it was.
pub fn guarded(work: impl FnOnce() -> Result<Vec<u8>, Problem>) -> Result<Vec<u8>, Problem> {
    // Nothing outlives the closure but its result, so nothing half done can be seen afterwards.
    catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|_| Err(Problem::internal()))
}
