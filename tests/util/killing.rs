//! Helpers of the tests that kill the program: a start, random moments, what is built.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

use super::{Folder, program};

/// Longest time that any child is waited for.
pub(crate) const PATIENCE: Duration = Duration::from_secs(60);

/// Fractions from nothing to one: a linear congruential generator with Knuth's multiplier (from
/// memory), its high bits taken.
pub(crate) struct Moments(pub(crate) u64);

impl Moments {
    pub(crate) fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 40) as f64 / (1_u64 << 24) as f64
    }
}

/// Starts the program in a folder.
pub(crate) fn start(folder: &Folder, arguments: &[&str], output: Stdio) -> Child {
    program()
        .args(arguments)
        .current_dir(folder.path())
        .stdin(Stdio::piped())
        .stdout(output)
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Names and texts of a built folder, without the marker of its maker.
pub(crate) fn built(path: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![path.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path_in = entry.unwrap().path();
            if path_in.is_dir() {
                folders.push(path_in);
            } else {
                let name = path_in.strip_prefix(path).unwrap().display().to_string();
                files.insert(name, fs::read(&path_in).unwrap());
            }
        }
    }
    files
}

/// Waits until a path is there or the child has ended.
pub(crate) fn wait_for(path: &Path, child: &mut Child) {
    until(child, || path.exists());
}

/// Waits until something holds or the child has ended.
#[track_caller]
pub(crate) fn until(child: &mut Child, holds: impl Fn() -> bool) {
    let begun = Instant::now();
    while !holds() && child.try_wait().unwrap().is_none() {
        assert!(begun.elapsed() < PATIENCE, "it never comes");
        std::thread::sleep(Duration::from_micros(50));
    }
}

/// Puts words in the place of others in a file, or back.
pub(crate) fn rename(folder: &Folder, file: &str, old: &str, new: &str, is_old: bool) {
    let path = folder.path().join(file);
    let text = fs::read_to_string(&path).unwrap();
    let (from, to) = if is_old { (new, old) } else { (old, new) };
    fs::write(path, text.replace(from, to)).unwrap();
}

/// Fails when anything but the output and the lock is left of a build.
#[track_caller]
pub(crate) fn nothing_left(folder: &Path) {
    for entry in fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().display().to_string();
        let is_left = [".tmp", ".part", ".old"]
            .iter()
            .any(|end| name.ends_with(end));
        assert!(!is_left, "`{name}` is left beside the output");
    }
}
