//! Oracles and helpers that the proofs share.
//!
//! An oracle answers a question of the solver's by another method, from the written
//! form of a network alone: [`tree`] reads it, [`brute`] lists networks by trying
//! everything, [`burnside`] counts them without listing any, [`nodal`] solves them
//! as electrical circuits, [`ways`] tries every way to use an amplifier. None of them
//! calls the solver for its own answer.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a proof stops at the first surprise and says what it was"
)]

pub mod brute;
pub mod burnside;
pub mod campaign;
#[cfg(feature = "browser")]
pub mod driver;
pub mod faulted;
pub mod faults;
pub mod generate;
pub mod hardest;
pub mod nodal;
pub mod requests;
pub mod rigs;
pub mod sim;
pub mod spice;
pub mod tree;
pub mod ways;
pub mod wired;
