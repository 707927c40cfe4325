//! The worst case and the yield of lines whose values vary.

mod fast;
mod interval;
mod shown;
mod timed;
mod worst;
mod yielded;
