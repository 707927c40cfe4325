//! The worst case and the yield of lines whose values vary.

mod fast;
mod interval;
mod worst;
mod yielded;
