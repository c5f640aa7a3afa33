//! The page. It knows how to show and to remember; it computes nothing about electricity.

pub mod state;

/// Puts the page in place.
pub fn start() {}
