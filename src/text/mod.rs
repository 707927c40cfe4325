//! Results as text: tables, Markdown, the working of a line.

pub(crate) mod explain;
mod feed_grid;
mod markdown;
pub(crate) mod pick_view;
mod render;
mod signal;
mod slow_view;
mod table;
pub(crate) mod view;

pub use explain::working;
pub use pick_view::render_pick;
pub use render::{Format, render};
