//! The one integration binary.

mod geometry;
