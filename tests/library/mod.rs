//! The crate as another program embeds it.

mod builder;
mod sheets;
mod stated;
