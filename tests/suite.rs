//! The one integration binary.

mod time;
