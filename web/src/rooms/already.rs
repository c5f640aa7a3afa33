//! A rig that is wired already: what it is believed to be, what its cup reads, and what that
//! says, with no step done.

pub mod state;
pub mod view;

pub use state::{Action, Cup as State};

/// Its name in links.
pub const NAME: &str = "already";
/// It is about the plan of what it is believed to be.
pub const ON_PLAN: bool = true;
