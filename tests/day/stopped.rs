//! Runs that are stopped or killed.
