//! Finding, reading and writing files: every failure told, nothing half written.
//!
//! The kill tests run this test program again as a child that writes again and again, and end it
//! at a different moment in each round. What may be there afterwards is the table at the head of
//! `store/folder.rs`, told there in words and checked here with the plain file functions.
#![cfg(feature = "program")]
#![expect(clippy::unwrap_used, reason = "a helper of tests fails loudly")]
#![expect(
    clippy::disallowed_methods,
    reason = "the store is checked against the plain file functions"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use faceside::diag::{Code, Fault, Severity};
use faceside::store::{Files, Page, Role, append_line, find_shop, replace_folder, write_whole};
use tempfile::{TempDir, tempdir};

const CHILD: &str = "FACESIDE_TEST_CHILD_FOLDER";
/// A child ends by itself when its parent was ended first.
const CHILD_LIVES: Duration = Duration::from_secs(5);

fn put(folder: &Path, path: &str, text: &str) {
    let path = folder.join(path);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

fn child(test: &str, folder: &Path) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .args(["--exact", test, "--ignored", "--test-threads=1"])
        .env(CHILD, folder)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Lets a child write for a while that differs from round to round, then ends it. The child tells
/// that it is at work by a file beside what it writes.
fn run_and_kill(test: &str, target: &Path, round: u64) {
    let started = started(target);
    let mut child = child(test, target);
    let began = Instant::now();
    while !started.exists() {
        assert!(began.elapsed() < CHILD_LIVES, "the child does not start");
        thread::sleep(Duration::from_millis(1));
    }
    thread::sleep(Duration::from_millis(round * 5));
    child.kill().unwrap();
    child.wait().unwrap();
    fs::remove_file(started).unwrap();
}

fn started(target: &Path) -> PathBuf {
    target.with_file_name("started")
}

fn paths(files: &Files, role: Role) -> Vec<(String, bool)> {
    let path = |file: &faceside::store::File| (file.path.clone(), file.built_in);
    files.of(role).map(path).collect()
}

#[test]
fn the_built_in_files_are_read_without_a_word() {
    let (files, faults) = Files::read(None);
    assert!(faults.is_empty(), "{faults:#?}");
    for (role, path) in [
        (Role::Shop, "shop/shop.yaml"),
        (Role::Machines, "shop/machines.yaml"),
        (Role::Cutters, "shop/cutters.yaml"),
        (Role::People, "shop/people.yaml"),
    ] {
        assert_eq!(paths(&files, role), [(path.to_owned(), true)]);
        assert_eq!(files.of_one_shop(role).count(), 1);
    }
    let shop = files.of(Role::Shop).next().unwrap();
    assert_eq!(shop.source.name, "procedures/shop/shop.yaml");
    assert!(shop.source.text.contains("Boathouse workshop"));
}

#[test]
fn a_shops_files_are_read_by_role_and_in_order() {
    let shop = tempdir().unwrap();
    for path in [
        "shop.yaml",
        "terms.yaml",
        "procedures/b.yaml",
        "procedures/deep/er/a.yaml",
        "procedures/a.yaml",
        "procedures/a.txt",
        "procedures/.b.yaml",
        "cautions/saw.yaml",
        "cautions/deep/not.yaml",
        "notes/wood/oak.md",
        "jobs/lockers.yaml",
        "record/2026.jsonl",
        "stray.yaml",
    ] {
        put(shop.path(), path, "id: a\n");
    }
    let (files, faults) = Files::read(Some(shop.path()));
    assert!(faults.is_empty(), "{faults:#?}");
    let own = |role| {
        let own = files.of(role).filter(|file| !file.built_in);
        own.map(|file| file.path.as_str()).collect::<Vec<_>>()
    };
    assert_eq!(
        own(Role::Procedure),
        [
            "procedures/a.yaml",
            "procedures/b.yaml",
            "procedures/deep/er/a.yaml"
        ]
    );
    assert_eq!(own(Role::Caution), ["cautions/saw.yaml"]);
    assert_eq!(own(Role::Note), ["notes/wood/oak.md"]);
    assert_eq!(own(Role::Job), ["jobs/lockers.yaml"]);
    assert_eq!(own(Role::Terms), ["terms.yaml"]);
    assert_eq!(own(Role::Machines), [""; 0]);
    assert_eq!(files.of(Role::Shop).count(), 2);
    let one: Vec<_> = files.of_one_shop(Role::Shop).collect();
    assert_eq!(one.len(), 1);
    assert_eq!(
        one[0].source.name,
        shop.path().join("shop.yaml").to_string_lossy()
    );
    assert_eq!(files.of_one_shop(Role::Machines).count(), 0);
}

#[cfg(unix)]
#[test]
fn what_cannot_be_read_is_told_and_the_rest_is_read() {
    use std::os::unix::fs::symlink;
    use std::os::unix::net::UnixListener;

    let shop = tempdir().unwrap();
    let at = |path: &str| shop.path().join(path);
    put(shop.path(), "shop.yaml", "id: a\n");
    put(shop.path(), "procedures/good.yaml", "id: a\n");
    put(shop.path(), "procedures/inner/good.yaml", "id: a\n");
    put(shop.path(), "procedures/old.yml", "id: a\n");
    fs::write(at("procedures/latin.yaml"), b"caf\xe9").unwrap();
    fs::create_dir(at("procedures/folder.yaml")).unwrap();
    fs::write(at("procedures/large.yaml"), vec![b' '; 200_000]).unwrap();
    symlink(at("nowhere"), at("procedures/dangling.yaml")).unwrap();
    symlink(at("procedures"), at("procedures/inner/ring")).unwrap();
    symlink(at("procedures/good.yaml"), at("procedures/linked.yaml")).unwrap();
    let _socket = UnixListener::bind(at("procedures/socket.yaml")).unwrap();

    let (files, faults) = Files::read(Some(shop.path()));
    let own: Vec<_> = files
        .of(Role::Procedure)
        .filter(|file| !file.built_in)
        .collect();
    let read: Vec<_> = own.iter().map(|file| file.path.as_str()).collect();
    assert_eq!(
        read,
        [
            "procedures/good.yaml",
            "procedures/inner/good.yaml",
            "procedures/linked.yaml"
        ]
    );
    let told: Vec<_> = faults.iter().map(|f| (f.severity, f.code.name())).collect();
    let (error, warning) = (Severity::Error, Severity::Warning);
    // In the order of their names: dangling, folder, ring, large, latin, old.yml, socket.
    assert_eq!(
        told,
        [
            (error, "file-unreadable"),
            (error, "file-unreadable"),
            (warning, "file-unreadable"),
            (error, "file-limit"),
            (error, "file-not-text"),
            (warning, "file-unreadable"),
            (error, "file-unreadable"),
        ]
    );
    let words: Vec<_> = faults.iter().map(|f| f.message.as_str()).collect();
    assert!(words[0].contains("dangling.yaml") && words[1].contains("folder.yaml"));
    assert!(words[2].contains("ring") && words[5].contains("old.yml"));
    assert!(words[6].contains("socket.yaml"));
}

#[test]
fn the_shop_folder_is_the_told_one_or_the_nearest_above() {
    let top = tempdir().unwrap();
    put(top.path(), "club/shop.yaml", "shop: a\n");
    put(top.path(), "club/jobs/deep/x", "");
    put(top.path(), "other/shop.yaml", "shop: b\n");
    let (club, other) = (top.path().join("club"), top.path().join("other"));
    let deep = club.join("jobs/deep");
    assert_eq!(find_shop(None, None, &deep).unwrap(), Some(club.clone()));
    assert_eq!(
        find_shop(None, Some(&other), &deep).unwrap(),
        Some(other.clone())
    );
    assert_eq!(
        find_shop(Some(&club), Some(&other), &deep).unwrap(),
        Some(club)
    );
    assert_eq!(
        find_shop(None, Some(Path::new("")), &other).unwrap(),
        Some(other)
    );
    assert_eq!(find_shop(None, None, top.path()).unwrap(), None);
    let fault = find_shop(Some(top.path()), None, &deep).unwrap_err();
    assert_eq!(fault.code, Code::FILE_UNREADABLE);
}

#[test]
fn a_file_is_written_whole_in_the_place_of_the_old_one() {
    let top = tempdir().unwrap();
    let path = top.path().join("new/folder/sheet.html");
    write_whole(&path, b"one").unwrap();
    write_whole(&path, b"two").unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"two");
    assert_eq!(fs::read_dir(path.parent().unwrap()).unwrap().count(), 1);
    let fault = write_whole(path.parent().unwrap(), b"three").unwrap_err();
    assert_eq!(fault.code, Code::FILE_UNREADABLE);
    assert!(fault.message.contains("new/folder"));
    assert_eq!(fs::read(&path).unwrap(), b"two");
    let fault = write_whole(&path.join("below-a-file"), b"four").unwrap_err();
    assert_eq!(fault.code, Code::FILE_UNREADABLE);
}

/// Pages that all tell which generation they are of.
fn pages(generation: u32) -> Vec<Page> {
    let page = |n: u32| Page {
        path: PathBuf::from(format!("part-{}/page-{n}.html", n % 3)),
        bytes: format!("{generation}\n").repeat(500).into_bytes(),
    };
    (0..9).map(page).collect()
}

/// The generation of a folder that has all its pages, each whole and of the same generation, and
/// nothing else.
#[track_caller]
fn whole(folder: &Path) -> u32 {
    let mut texts = BTreeSet::new();
    let mut count = 0;
    for part in 0..3 {
        for entry in fs::read_dir(folder.join(format!("part-{part}"))).unwrap() {
            texts.insert(fs::read_to_string(entry.unwrap().path()).unwrap());
            count += 1;
        }
    }
    assert_eq!((count, texts.len()), (9, 1), "{}", folder.display());
    // Three parts and the marker.
    assert_eq!(fs::read_dir(folder).unwrap().count(), 4);
    let text = texts.first().unwrap();
    let generation: u32 = text.lines().next().unwrap().parse().unwrap();
    assert_eq!(*text, format!("{generation}\n").repeat(500));
    generation
}

fn names(folder: &TempDir) -> Vec<String> {
    let names = fs::read_dir(folder.path()).unwrap();
    let mut names: Vec<_> = names
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

#[test]
fn a_folder_is_replaced_whole_and_leaves_nothing_beside_it() {
    let top = tempdir().unwrap();
    let folder = top.path().join("pages");
    replace_folder(&folder, "print", &pages(1)).unwrap();
    assert_eq!(whole(&folder), 1);
    replace_folder(&folder, "print", &pages(2)).unwrap();
    assert_eq!(whole(&folder), 2);
    assert_eq!(names(&top), [".pages.lock", "pages"]);
    replace_folder(&folder, "print", &[]).unwrap();
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 1);
}

#[test]
fn what_any_kill_leaves_is_repaired() {
    let top = tempdir().unwrap();
    let at = |name: &str| top.path().join(name);
    let folder = at("pages");
    // Between the renames, and with a half-built folder: the old one comes back even when the
    // next build fails (a page cannot be a file and a folder).
    replace_folder(&folder, "print", &pages(1)).unwrap();
    fs::rename(&folder, at("pages.old")).unwrap();
    put(top.path(), "pages.part/.faceside-folder", "");
    put(top.path(), "pages.part/part-0/page-0.html", "half");
    let page = |path: &str| Page {
        path: path.into(),
        bytes: Vec::new(),
    };
    assert!(replace_folder(&folder, "print", &[page("a"), page("a/b")]).is_err());
    assert_eq!(whole(&folder), 1);
    // After the renames: what is left of the old one goes.
    replace_folder(&at("else"), "print", &pages(7)).unwrap();
    fs::rename(at("else"), at("pages.old")).unwrap();
    replace_folder(&folder, "print", &pages(2)).unwrap();
    assert_eq!(whole(&folder), 2);
    // Killed before the marker was written, and after it was deleted.
    fs::create_dir(at("pages.part")).unwrap();
    replace_folder(&folder, "print", &pages(3)).unwrap();
    assert_eq!(whole(&folder), 3);
    assert_eq!(names(&top), [".else.lock", ".pages.lock", "pages"]);
}

fn refuses(folder: &Path, list: &[Page]) -> Fault {
    let fault = replace_folder(folder, "print", list).unwrap_err();
    assert_eq!(fault.code, Code::FILE_UNREADABLE);
    fault
}

/// What another command made, and a file that was put among the pages, are never replaced; a hidden
/// one, as file managers leave them, is, and so is a folder of an older version, which names nothing.
#[test]
fn what_was_not_made_by_the_same_command_is_left_alone() {
    let top = tempdir().unwrap();
    let folder = top.path().join("pages");
    replace_folder(&folder, "site", &pages(1)).unwrap();
    let fault = refuses(&folder, &pages(2));
    assert!(fault.message.contains("`faceside site`"), "{fault:?}");
    assert_eq!(whole(&folder), 1);
    replace_folder(&folder, "site", &pages(2)).unwrap();
    put(&folder, ".hidden", "left by a file manager");
    replace_folder(&folder, "site", &pages(3)).unwrap();
    put(&folder, "part-0/lesson.html", "mine");
    let fault = replace_folder(&folder, "site", &pages(4)).unwrap_err();
    assert!(fault.message.contains("`part-0/lesson.html`"), "{fault:?}");
    assert_eq!(
        fs::read_to_string(folder.join("part-0/lesson.html")).unwrap(),
        "mine"
    );
    let older = "Made by faceside. Everything in this folder is replaced when it is built again.\n";
    fs::write(folder.join(".faceside-folder"), older).unwrap();
    replace_folder(&folder, "print", &pages(5)).unwrap();
    assert_eq!(whole(&folder), 5);
}

#[test]
fn a_folder_of_someone_else_is_left_alone() {
    let top = tempdir().unwrap();
    let folder = top.path().join("pages");
    put(&folder, "holiday.jpg", "sea");
    let fault = refuses(&folder, &pages(1));
    assert!(fault.message.contains("pages") && !fault.hints.is_empty());
    assert_eq!(names(&top), [".pages.lock", "pages"]);
    assert_eq!(
        fs::read_to_string(folder.join("holiday.jpg")).unwrap(),
        "sea"
    );
    fs::remove_dir_all(&folder).unwrap();
    for other in ["pages.old", "pages.part"] {
        put(top.path(), &format!("{other}/mine.txt"), "mine");
        refuses(&folder, &pages(1));
        assert_eq!(
            fs::read_to_string(top.path().join(other).join("mine.txt")).unwrap(),
            "mine"
        );
        fs::remove_dir_all(top.path().join(other)).unwrap();
    }
    fs::write(&folder, "a file").unwrap();
    refuses(&folder, &pages(1));
    fs::remove_file(&folder).unwrap();
    fs::create_dir(&folder).unwrap();
    replace_folder(&folder, "print", &pages(1)).unwrap();
    assert_eq!(whole(&folder), 1);
}

#[test]
fn pages_stay_inside_their_folder() {
    let top = tempdir().unwrap();
    for path in [
        "../out.html",
        "/tmp/out.html",
        "a/../../out.html",
        "",
        ".faceside-folder",
    ] {
        let page = Page {
            path: path.into(),
            bytes: Vec::new(),
        };
        refuses(&top.path().join("pages"), &[page]);
        assert_eq!(fs::read_dir(top.path()).unwrap().count(), 0, "{path}");
    }
    refuses(Path::new("/"), &pages(1));
    refuses(Path::new(".."), &pages(1));
}

#[test]
fn two_at_once_do_not_mix() {
    let top = tempdir().unwrap();
    let folder = top.path().join("pages");
    thread::scope(|scope| {
        for half in 0..2 {
            let folder = &folder;
            scope.spawn(move || {
                for n in 0..5 {
                    replace_folder(folder, "print", &pages(half * 10 + n)).unwrap();
                }
            });
        }
    });
    assert!([4, 14].contains(&whole(&folder)));
    assert_eq!(names(&top), [".pages.lock", "pages"]);
}

#[test]
#[ignore = "the child of a kill test, run by it"]
fn child_that_replaces_a_folder() {
    let Some(folder) = std::env::var_os(CHILD) else {
        return;
    };
    fs::write(started(Path::new(&folder)), "").unwrap();
    let began = Instant::now();
    for generation in (1..).take_while(|_| began.elapsed() < CHILD_LIVES) {
        replace_folder(Path::new(&folder), "print", &pages(generation)).unwrap();
    }
}

#[test]
fn a_killed_replacement_leaves_the_old_or_the_new_folder() {
    let top = tempdir().unwrap();
    let folder = top.path().join("pages");
    let mut moved = false;
    for round in 0..25 {
        replace_folder(&folder, "print", &pages(0)).unwrap();
        run_and_kill("child_that_replaces_a_folder", &folder, round);
        let there = if folder.exists() {
            folder.clone()
        } else {
            top.path().join("pages.old")
        };
        moved |= whole(&there) > 0;
    }
    replace_folder(&folder, "print", &pages(0)).unwrap();
    assert_eq!(whole(&folder), 0);
    assert_eq!(names(&top), [".pages.lock", "pages"]);
    assert!(moved, "no child got as far as replacing anything");
}

#[test]
fn lines_are_appended_and_a_torn_one_is_not_joined() {
    let top = tempdir().unwrap();
    let path = top.path().join("record/2026.jsonl");
    append_line(&path, "one").unwrap();
    append_line(&path, "").unwrap();
    append_line(&path, "two").unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "one\n\ntwo\n");
    fs::write(&path, "one\ntor").unwrap();
    append_line(&path, "two").unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "one\ntor\ntwo\n");
    for line in ["a\nb", "a\r"] {
        assert_eq!(
            append_line(&path, line).unwrap_err().code,
            Code::RECORD_LINE
        );
    }
    let fault = append_line(top.path(), "x").unwrap_err();
    assert_eq!(fault.code, Code::FILE_UNREADABLE);
}

#[test]
#[ignore = "the child of a kill test, run by it"]
fn child_that_appends_lines() {
    let Some(path) = std::env::var_os(CHILD) else {
        return;
    };
    fs::write(started(Path::new(&path)), "").unwrap();
    let (began, id) = (Instant::now(), std::process::id());
    for n in (0..).take_while(|_| began.elapsed() < CHILD_LIVES) {
        append_line(Path::new(&path), &format!("{id} {n} {}", "x".repeat(3000))).unwrap();
    }
}

#[test]
fn killed_and_simultaneous_appends_leave_whole_lines() {
    let top = tempdir().unwrap();
    let path = top.path().join("2026.jsonl");
    for round in 0..8 {
        let mut other = child("child_that_appends_lines", &path);
        run_and_kill("child_that_appends_lines", &path, 5 + round);
        other.kill().unwrap();
        other.wait().unwrap();
    }
    let text = fs::read_to_string(&path).unwrap();
    assert!(text.ends_with('\n'));
    // A kill may tear the line that is being written, one of each process at most; what was
    // written before it stays, without a gap.
    let mut torn = 0;
    let mut next = std::collections::BTreeMap::new();
    for line in text.lines() {
        let parts: Vec<_> = line.split(' ').collect();
        if line.len() < 3000 || parts[2].len() < 3000 {
            torn += 1;
            continue;
        }
        let n: u32 = parts[1].parse().unwrap();
        let expected = next.entry(parts[0].to_owned()).or_insert(0);
        assert_eq!(
            (n, parts[2], parts.len()),
            (*expected, "x".repeat(3000).as_str(), 3)
        );
        *expected += 1;
    }
    assert!(torn <= 16, "{torn} torn lines of 16 processes");
    assert!(next.len() > 2, "too few children wrote anything");
}
