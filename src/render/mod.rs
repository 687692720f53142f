//! Model to text: blocks, then one writer a medium.

pub mod worked;
