//! How far a long run is, on a terminal.

use std::io::{IsTerminal, stderr};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::result::LineDone;

/// A run shorter than this says nothing.
const PATIENCE: Duration = Duration::from_secs(1);
const REDRAW: Duration = Duration::from_millis(200);

/// Does `work` of this many steps, with a bar on standard error where that is a terminal and the work takes longer than
/// a second. The bar is gone when the work is done.
pub(super) fn with_progress<T>(steps: usize, work: impl FnOnce(LineDone<'_>) -> T) -> T {
    if !stderr().is_terminal() {
        return work(&|| ());
    }
    let bar = ProgressBar::with_draw_target(Some(steps as u64), ProgressDrawTarget::hidden());
    // Where the template were not understood, the library's own bar would show.
    if let Ok(style) = ProgressStyle::with_template("{bar:30} {percent:>3} %  {elapsed}") {
        bar.set_style(style);
    }
    let bar = &bar;
    let (end, waiting) = channel::<()>();
    thread::scope(|scope| {
        scope.spawn(move || {
            if waiting.recv_timeout(PATIENCE) == Err(RecvTimeoutError::Timeout) {
                bar.set_draw_target(ProgressDrawTarget::stderr());
                bar.enable_steady_tick(REDRAW);
                // Until the work is done.
                let _ = waiting.recv();
            }
            bar.finish_and_clear();
        });
        let made = work(&|| bar.inc(1));
        drop(end);
        made
    })
}
