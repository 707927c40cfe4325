//! Quantities: what a prefix, an operator and a product make of them, and how they are shown.

mod arithmetic;
mod products;
mod scaled;
mod text;
