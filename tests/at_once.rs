//! Two programs at once write one folder, some of them killed: it then holds the whole pages of one
//! of them, never a mixture, and the next run leaves nothing beside it.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::collections::BTreeMap;
use std::process::Stdio;
use std::time::Instant;

use util::killing::{Moments, built, nothing_left, rename, start};
use util::{Folder, demo_shop};

/// Of every three rounds, one ends whole, one has one of its two runs killed, one has both.
/// The debug build takes seconds for each.
const ROUNDS: u32 = if cfg!(debug_assertions) { 6 } else { 18 };

/// One shop's pages, by name.
type Built = BTreeMap<String, Vec<u8>>;

/// Two shops that differ in words and in their files write the same folder.
fn they_do_not_mix(command: &[&str], change: impl Fn(&Folder)) {
    let shops = [demo_shop(), demo_shop()];
    change(&shops[1]);
    let shared = Folder::empty();
    let out = shared.path().join("pages");
    let mut arguments = command.to_vec();
    arguments.extend(["--out", out.to_str().unwrap()]);

    let begun = Instant::now();
    let alone = shops.each_ref().map(|folder| {
        folder.run(&arguments).code(0);
        built(&out)
    });
    let longest = begun.elapsed();
    let names = |built: &Built| built.keys().cloned().collect::<Vec<_>>();
    assert_ne!(names(&alone[0]), names(&alone[1]), "the files must differ");

    let mut moments = Moments(u64::from(ROUNDS));
    let mut seen = [0; 2];
    for round in 0..ROUNDS {
        // The last to start is mostly the last to write, so each shop starts last in turn.
        let first = (round % 2) as usize;
        let mut children =
            [first, 1 - first].map(|shop| start(&shops[shop], &arguments, Stdio::null()));
        let kills = round % 3;
        for child in children.iter_mut().take(kills as usize) {
            std::thread::sleep(longest.mul_f64(moments.next() / f64::from(kills)));
            child.kill().unwrap();
        }
        for (at, child) in children.iter_mut().enumerate() {
            let ended = child.wait().unwrap();
            assert!(
                at < kills as usize || ended.success(),
                "round {round}: {ended}"
            );
        }
        let found = built(&out);
        let whose = alone.iter().position(|one| *one == found);
        let whose = whose.unwrap_or_else(|| panic!("round {round}: the pages are mixed"));
        seen[whose] += 1;
    }
    assert!(
        seen.iter().all(|rounds| *rounds > 0),
        "one always won: {seen:?}"
    );
    for (folder, alone) in shops.iter().zip(&alone) {
        folder.run(&arguments).code(0);
        assert!(built(&out) == *alone, "the next run is whole");
        nothing_left(shared.path());
    }
}

#[test]
fn two_sites_at_once_do_not_mix() {
    they_do_not_mix(&["site"], |folder| {
        rename(
            folder,
            "shop.yaml",
            "Boathouse workshop",
            "Slipway workshop",
            false,
        );
        let note =
            "---\nnote: varnish\ntitle: Varnish\nabout: [through-housing]\n---\nTwo coats.\n";
        std::fs::create_dir(folder.path().join("notes")).unwrap();
        std::fs::write(folder.path().join("notes/varnish.md"), note).unwrap();
    });
}

#[test]
fn two_prints_at_once_do_not_mix() {
    they_do_not_mix(&["print"], |folder| {
        let job = "jobs/boathouse-lockers.yaml";
        rename(folder, job, "title: Lockers", "title: More lockers", false);
        let text = folder.read(job);
        // Without its last parts the job has fewer sheets.
        let (shorter, _) = text.split_once("  - part: Sail rack").unwrap();
        std::fs::write(folder.path().join(job), shorter).unwrap();
    });
}
