//! The crate as another program embeds it.

mod builder;
mod guarded;
mod sheets;
mod stated;
