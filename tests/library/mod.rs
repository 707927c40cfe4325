//! The crate as another program embeds it.

mod sheets;
