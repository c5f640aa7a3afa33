//! Working mode: the plan, one step at a time.

mod drawing;
mod over;
pub mod state;
pub mod view;

pub use state::{Action, State};

/// Its name in links.
pub const NAME: &str = "work";
/// It goes through the plan.
pub const ON_PLAN: bool = true;
