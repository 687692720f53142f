//! What is written is read, whole or in part, and no changed byte is taken.

use faceside::shoplog::What;
use proptest::prelude::{ProptestConfig, any, proptest};
use proptest::sample::Index;

use crate::any_event::events;
use crate::{read_text, written};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn what_is_written_is_read(events in events()) {
        let (entries, faults) = read_text(&written(&events));
        assert!(faults.is_empty());
        let known: Vec<_> = entries.into_iter().map(|entry| entry.what).collect();
        let wanted: Vec<_> = events.into_iter().map(What::Known).collect();
        assert_eq!(known, wanted);
    }

    #[test]
    fn any_prefix_gives_all_its_whole_lines(events in events(), cut in any::<Index>()) {
        let text = written(&events);
        let bytes = &text.as_bytes()[..cut.index(text.len() + 1)];
        let (entries, faults) = read_text(&String::from_utf8_lossy(bytes));
        let ended = bytes.iter().filter(|byte| **byte == b'\n').count();
        // A line that lacks nothing but its line feed is whole.
        let bare = text.as_bytes().get(bytes.len()) == Some(&b'\n');
        assert_eq!(entries.len(), ended + usize::from(bare));
        let torn = !bare && bytes.last().is_some_and(|byte| *byte != b'\n');
        assert_eq!(faults.len(), usize::from(torn));
    }

    #[test]
    fn any_changed_byte_of_a_line_is_noticed(
        events in events(), at in any::<Index>(), change in 1..=255_u8,
    ) {
        let mut bytes = written(&events).into_bytes();
        let at = at.index(bytes.len());
        proptest::prop_assume!(bytes[at] != b'\n');
        bytes[at] ^= change;
        let (entries, faults) = read_text(&String::from_utf8_lossy(&bytes));
        assert!(!faults.is_empty());
        assert_eq!(entries.len(), events.len() - 1);
    }

    #[test]
    fn nothing_panics(text in any::<String>(), bytes in any::<Vec<u8>>()) {
        let (entries, _) = read_text(&text);
        assert!(entries.is_empty());
        let (entries, _) = read_text(&String::from_utf8_lossy(&bytes));
        assert!(entries.is_empty());
    }
}
