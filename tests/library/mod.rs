//! The crate as another program embeds it.

mod builder;
mod guarded;
mod necked;
mod sheets;
mod stated;
