//! The one canonical writing of a configuration.
