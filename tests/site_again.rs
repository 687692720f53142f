//! `site --watch` makes only those pages again that a change touches; what is then in the folder is,
//! byte for byte, what a site that is built from nothing has.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::Path;

use util::Folder;
use util::killing::built;
use util::watching::{Watching, started};

const OWN: &str = "procedures/first-procedure.yaml";
const OWN_PAGE: &str = "procedures/first-procedure.html";
/// The page of a built-in procedure that nothing of the test changes.
const OTHER_PAGE: &str = "procedures/stopped-housing.html";
const NOTE_PAGE: &str = "notes/varnish.html";

struct Shop {
    folder: Folder,
    watching: Watching,
}

impl Shop {
    fn write(&self, file: &str, text: &str) {
        let path = self.folder.path().join(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// Replaces some words of a file.
    #[track_caller]
    fn change(&self, file: &str, old: &str, new: &str) {
        let text = self.folder.read(file);
        assert!(text.contains(old), "`{old}` is not in {file}");
        self.write(file, &text.replacen(old, new, 1));
    }

    fn page(&self, page: &str) -> String {
        self.folder.read(&format!("out/site/{page}"))
    }

    /// Which file a page is: one that is taken over stays the same.
    fn number(&self, page: &str) -> Option<u64> {
        let path = self.folder.path().join("out/site").join(page);
        fs::metadata(path).ok().map(|file| file.ino())
    }

    /// Waits for the pages; they must be those of a site that is built from nothing. Gives whether
    /// the page of the other procedure and the note's were taken over.
    #[track_caller]
    fn builds(&self, why: &str) -> [bool; 2] {
        let before = [OTHER_PAGE, NOTE_PAGE].map(|page| self.number(page));
        self.watching.comes("/");
        self.is_as_from_nothing(why);
        let after = [OTHER_PAGE, NOTE_PAGE].map(|page| self.number(page));
        [before[0] == after[0], before[1] == after[1]]
    }

    #[track_caller]
    fn is_as_from_nothing(&self, why: &str) {
        let fresh = Folder::empty();
        let out = fresh.path().join("site");
        let arguments = ["site", "--out", out.to_str().unwrap()];
        self.folder.run(&arguments).code(0);
        let again = built(&self.folder.path().join("out/site"));
        let fresh = built(&out);
        let names = |files: &std::collections::BTreeMap<String, Vec<u8>>| {
            files.keys().cloned().collect::<Vec<_>>()
        };
        assert_eq!(names(&again), names(&fresh), "{why}");
        for (name, bytes) in &fresh {
            assert!(again[name] == *bytes, "{why}: {name} differs");
        }
    }
}

fn note(title: &str, text: &str) -> String {
    format!("---\nnote: varnish\ntitle: {title}\nabout: [first-procedure]\n---\n{text}\n")
}

#[test]
fn what_a_change_does_not_touch_is_taken_over_and_all_else_is_made_again() {
    let folder = started();
    fs::create_dir_all(folder.path().join("notes")).unwrap();
    let text = note("Varnish", "See [it](procedure:stopped-housing).");
    fs::write(folder.path().join("notes/varnish.md"), text).unwrap();
    let watching = Watching::begin(&folder, &["site", "--watch"]);
    let shop = Shop { folder, watching };
    // The address, then the first build.
    shop.watching.next();
    shop.watching.comes("/");
    shop.is_as_from_nothing("the first build");

    // A title stands on its own page, in the lists, and on the note that bears on it.
    shop.change(OWN, "\ntitle: ", "\ntitle: Oar rack, ");
    assert_eq!(shop.builds("a title"), [true, false]);
    assert!(shop.page(OWN_PAGE).contains("Oar rack, "));
    assert!(shop.page(NOTE_PAGE).contains("Oar rack, "));

    shop.change(OWN, "\nrevision: 1", "\nrevision: 2");
    assert_eq!(shop.builds("a revision"), [true, true]);

    shop.write("notes/varnish.md", &note("Oil", "Two coats."));
    assert_eq!(shop.builds("a note"), [true, false]);
    assert!(shop.page(OWN_PAGE).contains("Oil"));

    // Another id is another aim for links, so that every note is looked at again.
    let second = shop.folder.read(OWN);
    let second = second.replacen(
        "\nprocedure: first-procedure",
        "\nprocedure: second-procedure",
        1,
    );
    shop.write("procedures/second.yaml", &second);
    assert_eq!(shop.builds("one more procedure"), [true, false]);
    fs::remove_file(shop.folder.path().join("procedures/second.yaml")).unwrap();
    assert_eq!(shop.builds("it is gone"), [true, false]);

    // The name of the shop stands on every page, and its machines and words work on any.
    shop.change("shop.yaml", "\nshop: ", "\nshop: The slipway and ");
    assert_eq!(shop.builds("the name of the shop"), [false, false]);

    // A page that was changed by hand is not taken over.
    let by_hand = shop.folder.path().join("out/site").join(OTHER_PAGE);
    fs::write(&by_hand, "scribbled").unwrap();
    shop.change(OWN, "\nrevision: 2", "\nrevision: 3");
    shop.builds("a page changed by hand");

    // Nor is anything from a folder that another program has built meanwhile.
    let other = started();
    let text = other.read("shop.yaml");
    fs::write(
        other.path().join("shop.yaml"),
        text.replacen("\nshop: ", "\nshop: The jetty and ", 1),
    )
    .unwrap();
    let out = shop.folder.path().join("out/site");
    other.run(&["site", "--out", out.to_str().unwrap()]).code(0);
    assert!(shop.page(OTHER_PAGE).contains("The jetty and "));
    shop.change(OWN, "\nrevision: 3", "\nrevision: 4");
    assert_eq!(shop.builds("another program's pages"), [false, false]);

    // After a fault nothing was built, and what is there is still good.
    shop.change(OWN, "\ntitle: ", "\ntitel: ");
    shop.watching.comes("the pages stay as they were");
    shop.change(OWN, "\ntitel: ", "\ntitle: ");
    assert_eq!(shop.builds("a fault mended"), [true, true]);
    assert!(Path::new(&by_hand).is_file());
}
