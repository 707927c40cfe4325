//! Results as text: tables, Markdown, the working of a line.

pub(crate) mod budgets;
mod checks;
mod discharge;
pub(crate) mod explain;
pub(crate) mod grid;
mod markdown;
pub(crate) mod pick_view;
mod rails;
mod render;
mod scale;
pub(crate) mod section;
mod signal;
mod states;
mod table;
pub(crate) mod view;

pub use discharge::render_discharge;
pub use explain::{working, working_drawn};
pub use pick_view::render_pick;
pub use render::{Format, render};
