//! Oracles and helpers that the proofs share.
