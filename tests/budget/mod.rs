//! Budgets: exact sets, masks, and what is reported of them.

mod below;
mod brute_force;
mod closed_form;
mod masks;
mod outcome;
mod random_masks;
