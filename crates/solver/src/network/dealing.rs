//! Dealing leaves to drivers.
