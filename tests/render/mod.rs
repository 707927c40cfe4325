//! What a reader sees: diagnostics, and a report in every format.

mod diagnostics;
mod digits;
mod discharge;
mod formats;
mod hostile;
mod neck;
mod sample;
