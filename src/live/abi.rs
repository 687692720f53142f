//! The door between a page and the module: bytes of a question in, bytes of its answer out.
//!
//! A page asks for room, writes the question there, has it answered, reads the answer. There is one
//! page and one thread. Memory is only pointed at here and read and written from outside, so that no
//! line of Rust is unsafe; what the lint minds is that a name is exported, which could clash with
//! another of the same name.

#![expect(
    unsafe_code,
    reason = "an exported name; nothing is read or written through a pointer"
)]

use std::cell::RefCell;

use super::{Bench, ask};

thread_local! {
    static TEXT: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    static BENCH: RefCell<Option<Bench>> = const { RefCell::new(None) };
}

/// Makes room for a question of so many bytes and tells where to write it.
#[unsafe(no_mangle)]
pub extern "C" fn faceside_room(bytes: usize) -> *mut u8 {
    TEXT.with_borrow_mut(|text| {
        text.clear();
        text.resize(bytes, 0);
        text.as_mut_ptr()
    })
}

/// Answers the question that was written there and tells how many bytes the answer has.
#[unsafe(no_mangle)]
pub extern "C" fn faceside_answer() -> usize {
    let question = TEXT.take();
    let question = String::from_utf8_lossy(&question);
    let answer = BENCH.with_borrow_mut(|bench| ask(bench, &question));
    let bytes = answer.len();
    TEXT.set(answer.into_bytes());
    bytes
}

/// Where the answer begins.
#[unsafe(no_mangle)]
pub extern "C" fn faceside_text() -> *const u8 {
    TEXT.with_borrow(|text| text.as_ptr())
}
