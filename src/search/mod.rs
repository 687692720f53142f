//! Ranked answers from everything that the shop knows.
