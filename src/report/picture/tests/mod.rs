//! What the pictures show of jobs: facts as they are, unknown as unknown, every finding
//! in words, and no text on another.

mod jobs;
mod look;
mod scenes;
