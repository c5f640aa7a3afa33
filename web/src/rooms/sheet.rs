//! The job sheet.

pub mod state;
#[cfg(test)]
mod tests;
pub mod code;
pub mod lies;
pub mod paper;
pub mod readings;
pub mod view;

pub use state::{About as State, Action};

/// Its name in links.
pub const NAME: &str = "sheet";
/// Whether it is about the plan.
pub const ON_PLAN: bool = true;
