//! The ladder and the list.

mod answer;
mod entry;
mod ladder;
mod rows;
pub mod state;
pub mod view;

pub use state::{Action, Look as State};

/// Its name in links, which say nothing of it: what they hold is looked at here.
pub const NAME: &str = "list";
/// It is about every configuration.
pub const ON_PLAN: bool = false;
