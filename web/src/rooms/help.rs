//! Help in plain words.

pub mod view;

pub use super::Plain as State;

/// Its name in links.
pub const NAME: &str = "help";
/// Whether it is about the plan.
pub const ON_PLAN: bool = false;
