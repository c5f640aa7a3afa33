//! What may be in a closed box, by what a meter shows at its cup.

pub mod state;
#[cfg(test)]
mod tests;
pub mod view;

pub use state::{Action, Shown as State};

/// Its name in links.
pub const NAME: &str = "closed";
/// Nothing of it is planned yet.
pub const ON_PLAN: bool = false;
