//! Values from outside the project, each with its source.

mod junction;
mod lines;
mod matched;
mod reflection;
