//! A bench of its own for what the module says of readings: rigs as they are built, with what
//! goes wrong in them, and an installer with a meter.
//!
//! It knows the module by its JSON alone: [`plan`] reads what `wiring` and `readings` answer,
//! [`built`] lays the wires of it with a [`fault`], [`circuit`] solves them, [`meter`] shows
//! what a meter would, [`session`] does the job with `diagnose`, and [`judge`] holds what is
//! named to what is wrong. [`bound`] says how much of what reads right anybody could doubt. Nothing here shares code with the solver, nor with the other
//! oracles of faults.

pub mod ask;
pub mod bound;
#[cfg(test)]
mod bound_tests;
pub mod built;
pub mod circuit;
pub mod dice;
pub mod draw;
pub mod draws;
pub mod fault;
pub mod judge;
pub mod likely;
pub mod meter;
pub mod plan;
pub mod quick;
pub mod rigs;
pub mod session;
pub mod silent;
pub mod tally;
#[cfg(test)]
mod tests;
