//! The rigs that are kept by name.

pub mod kept;
pub mod record;
pub mod state;
#[cfg(test)]
mod tests;
pub mod view;

pub use record::{Mine, Record};
pub use state::{Action, Rigs as State};

/// Its name in links.
pub const NAME: &str = "rigs";
/// It is about many rigs.
pub const ON_PLAN: bool = false;
