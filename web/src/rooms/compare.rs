//! Configurations side by side.

pub mod view;

pub use super::Plain as State;

/// Its name in links.
pub const NAME: &str = "compare";
/// Whether it is about the plan.
pub const ON_PLAN: bool = false;
