//! The plan of the chosen configuration: the box, the drawing, the steps, what to buy.

mod build;
pub mod state;
pub mod view;

pub use state::{Action, State};

/// Its name in links.
pub const NAME: &str = "wire";
/// It shows the plan.
pub const ON_PLAN: bool = true;
