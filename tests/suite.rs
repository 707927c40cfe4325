//! The one integration binary.

mod parts;
