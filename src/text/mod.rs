//! Results as text: tables, Markdown, the working of a line.

pub(crate) mod budgets;
mod checks;
mod discharge;
pub(crate) mod explain;
pub(crate) mod grid;
mod markdown;
pub(crate) mod pick_view;
mod rails;
mod range;
mod render;
mod scale;
pub(crate) mod section;
pub(crate) mod sensitivity;
mod signal;
mod states;
mod sweep;
mod table;
pub(crate) mod view;

pub use discharge::render_discharge;
pub use explain::{working, working_drawn};
pub use pick_view::render_pick;
pub use range::render_range;
pub use render::{Format, render};
pub use sensitivity::render_sensitivity;
pub use sweep::render_sweep;
