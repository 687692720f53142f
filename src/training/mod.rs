//! Lessons on the four-step method.
