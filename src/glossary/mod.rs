//! What a job may say and what the law may be asked: choices, facts, questions
//! and their orders of strictness, and conditions over them.
//!
//! This module refuses to know codes and instruments. Of places it knows only
//! that a declaration may hold in one of them and within (a [`Scope`]).

pub(crate) mod demand;
pub(crate) mod expr;
pub(crate) mod model;
