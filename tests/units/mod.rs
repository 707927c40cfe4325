//! Quantities: what a prefix, an operator and a product make of them, and how they and bare numbers are shown.

mod arithmetic;
mod decimal;
mod products;
mod scaled;
mod text;
