//! The only file access: finds, reads, writes whole or not at all.
