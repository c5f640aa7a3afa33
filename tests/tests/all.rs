//! Every proof that needs neither a browser nor ngspice, in one binary: each of its own
//! would link the same crates again.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a proof stops at the first surprise")]

mod bounded;
mod bridged;
mod circuits;
mod closed_box;
mod counting;
mod failure;
mod keys;
mod laws;
mod level;
mod list;
mod nearest;
mod order;
mod rows;
mod same_answer;
mod trade;
mod ways;
mod ways_laws;
mod wiring;
