//! Codes, editions, places, instruments and powers, compiled for each place to a
//! flat set of guarded provisions.
//!
//! This module refuses to know any particular job, and any clock.

pub(crate) mod model;
